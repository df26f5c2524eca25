// Everything about the project under test that the harness has to know.
import path from 'node:path';

const here = import.meta.dirname;

export default {
  /** The source folder. */
  root: path.join(here, '..', '..'),
  /** The extension under test: what `lib/unpack-extension.mjs` unpacks from the package that people install. */
  extension: path.join(here, 'dist', 'extension'),
  /** The folder to open. Every run gets a fresh copy, so tests may edit it. */
  workspace: path.join(here, 'workspace'),
  /** The bundled suite: a CommonJS module with `run()`. It must end in .js (the web host insists). */
  suite: path.join(here, 'dist', 'suite.js'),
  /** Where logs and screenshots go. */
  results: path.join(here, 'results'),
  /** User settings on every host. The first ones keep the window quiet. */
  settings: {
    'chat.disableAIFeatures': true,
    'extensions.ignoreRecommendations': true,
    'files.autoSave': 'off', // the desktop's default; in a browser it is afterDelay
    'git.enabled': false,
    'security.workspace.trust.enabled': false,
    'telemetry.telemetryLevel': 'off',
    'update.mode': 'none',
    'window.commandCenter': false,
    'workbench.enableExperiments': false,
    'workbench.secondarySideBar.defaultVisibility': 'hidden',
    'workbench.startupEditor': 'none',
    'workbench.tips.enabled': false,
    'proofsheet.zone': 'Europe/Lisbon', // times in the preview must not depend on the machine
  },
  /** Milliseconds until a suite run is given up. */
  timeout: 300_000,
};
