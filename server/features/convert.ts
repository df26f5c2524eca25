/** Somebody else's recipe, from the clipboard say, as a draft to put into a document. */
import { convert } from '../core/convert/convert';
import { TO_DECIDE } from '../core/convert/lines';
import { builtInCatalogue } from '../core/ingredients/catalogue';
import { convertSummary } from '../output/convert-report';
import type { ConvertAnswer } from '../requests';

/** The draft, or a sentence that says why there is none. */
export function convertedText(text: string): ConvertAnswer {
  const converted = convert(text, { catalogue: builtInCatalogue });
  if (converted.kind === 'nothing') return { kind: 'cannot', message: converted.message };
  const { drafts, notices } = converted;
  return {
    kind: 'draft',
    text: converted.text,
    summary: [convertSummary(converted), ...notices].join(' '),
    hasDoubts: converted.text.includes(`# ${TO_DECIDE}`) || drafts.some(({ outcomes }) => outcomes.some(({ reading }) => reading === 'doubtful')),
  };
}
