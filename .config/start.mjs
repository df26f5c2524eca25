// `npm start`: builds, then does the main job on the samples in the terminal and says how to see it in the editor.
import { spawnSync } from 'node:child_process';
import path from 'node:path';

const root = path.join(import.meta.dirname, '..');
const node = (...args) => spawnSync(process.execPath, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] }).status;

function show(title, ...args) {
  console.log(`\n\n# ${title}\n# proofsheet ${args.map((arg) => (arg.includes(' ') ? `"${arg}"` : arg)).join(' ')}\n`);
  const status = node('dist/cli.cjs', ...args);
  // 1 is what `check` answers when it found something, and the page of mistakes is there to be found.
  if (status !== 0 && !(args[0] === 'check' && status === 1)) process.exit(status ?? 1);
}

/** The day of the stall, `2026-03-14`: one that has not passed. */
function nextSaturday() {
  const day = new Date();
  day.setDate(day.getDate() + (7 - ((day.getDay() + 1) % 7)));
  return [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((number) => String(number).padStart(2, '0')).join('-');
}

if (node('.config/build.mjs') !== 0) process.exit(1);
show('Findings: is anything wrong, before flour is wet?', 'check', 'samples');
show('The sheet: what to weigh, and what it is as percentages', 'sheet', 'samples/apricot-hearth.bake');
show('The timeline: when to do what, to be ready for the stall', 'schedule', 'samples/apricot-hearth.bake', '--ready', `${nextSaturday()} 08:00`, '--zone', 'Europe/Lisbon');
console.log(`

To see it in VS Code, with findings as you type and the preview beside the text:
  code --extensionDevelopmentPath="${root}" "${path.join(root, 'samples')}"
then open a .bake file and run "Proofsheet: Open Preview to the Side".`);
