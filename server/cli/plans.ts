/** Which plans of the files a schedule is about, and where what is said of them stands. */
import path from 'node:path';
import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { sectionNamed } from '../core/analyse';
import type { BakeDay } from '../core/plan/model';
import type { Settings } from '../core/settings/settings';
import { ownPlace } from '../core/variant/places';
import type { DayEntry } from '../output/day-words';
import { counted } from '../output/numbers';
import { printable } from '../output/width';
import type { LoadedFile, PlacedSection, ProjectFile } from '../project/file';
import { eachDocument, lineOf } from './documents';
import { slashes } from './files';
import { sameName } from './formulas';
import { didYouMean } from './nearest';
import type { Options } from './options';
import { Refusal, type ExitStatus } from './refusal';
import type { Terminal } from './terminal';

export interface ChosenPlan extends Pick<DayEntry, 'sectionOf' | 'whereOf'> {
  readonly day: BakeDay;
  /** Those of its workspace. */
  readonly settings: Settings;
}

export interface ChosenPlans {
  readonly plans: readonly ChosenPlan[];
  /** 2 when a file cannot be read, 1 when a plan has errors, else 0. */
  readonly status: ExitStatus;
}

/**
 * The plans of the files, or those that `--plan` names.
 * @throws Refusal when there is none
 */
export async function chosenPlans(options: Options, terminal: Terminal, stdin: Readable): Promise<ChosenPlans> {
  const wanted = options.get('plan');
  const plans: ChosenPlan[] = [];
  const names: string[] = [];
  const complaints: string[] = [];
  const { unreadable } = await eachDocument(options, terminal, stdin, ({ shown, file }) => {
    for (const section of file.sections) {
      const { day } = section.analysis;
      if (section.section.kind !== 'plan' || day === undefined) continue;
      names.push(day.name);
      if (wanted !== undefined && sameName(wanted) !== sameName(day.name)) continue;
      plans.push({ day, settings: file.settings, ...lookUpsOf(file, section) });
      const errors = section.analysis.findings.filter(({ severity }) => severity === 'error').length;
      if (errors > 0) complaints.push(`${shown}: ${counted(errors, 'error')} in the plan "${day.name}", so its schedule may have gaps. See: proofsheet check ${shown === '<stdin>' ? '-' : shown}`);
    }
  });
  for (const complaint of complaints) terminal.say(printable(complaint));
  if (plans.length === 0 && unreadable === 0) throw new Refusal(printable(nothingFound(wanted, names)));
  return { plans, status: unreadable > 0 ? 2 : complaints.length > 0 ? 1 : 0 };
}

function nothingFound(wanted: string | undefined, names: readonly string[]): string {
  if (wanted !== undefined) return `There is no plan "${wanted}" in these files.${didYouMean(wanted, names)}`;
  return 'Say when the bread must be ready, or when to start: --ready "2026-03-14 08:00" or --start "2026-03-13 17:00". Without them the plans of the files are scheduled, and there is none.';
}

/** Formulas of a plan stand in its file or in one that it uses. */
function lookUpsOf(file: ProjectFile, plan: PlacedSection): Pick<ChosenPlan, 'sectionOf' | 'whereOf'> {
  const sectionOf: ChosenPlan['sectionOf'] = (formula) => sectionNamed(plan.environment, sameName(formula));
  return {
    sectionOf,
    whereOf: ({ place, formula }) => {
      if (place === undefined) return undefined;
      if (formula === undefined) return { line: lineOf(file, plan)(place), file: undefined };
      const section = plan.environment.formulas.get(sameName(formula));
      const written = sectionOf(formula);
      for (const loaded of [file, ...file.visible] satisfies readonly LoadedFile[]) {
        const found = loaded.sections.find((one) => one.section === section);
        if (found === undefined) continue;
        const name = loaded === file ? undefined : slashes(path.relative('', fileURLToPath(loaded.uri)));
        return { line: loaded.lineIndex.positionAt(found.offsetsOf(written === undefined ? place : ownPlace(written, place)).start).line + 1, file: name };
      }
      return undefined;
    },
  };
}
