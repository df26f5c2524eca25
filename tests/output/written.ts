/** Findings of files in a form, file after file as the command line writes them. */
import { NOTHING_YET, plus, type CheckedFile, type FindingsForm } from '../../server/output/findings';

export function written(form: FindingsForm, files: readonly CheckedFile[], problems: readonly string[] = []): string {
  let tally = NOTHING_YET;
  let text = form.begin;
  for (const file of files) {
    text += form.file(file, tally);
    tally = plus(tally, file);
  }
  return text + form.end(tally, problems);
}
