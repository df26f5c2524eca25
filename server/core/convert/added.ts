/** `3 eggs + 2 yolks`: what is added behind a plus, which is weighed as well. */
import { amountAt } from './amounts';
import { isSign, isWord, sliceOf, tokensOf, type Token } from './tokens';

/** The two ingredients of a line; undefined where it is one. Each begins with an amount and goes on with words. */
export function addedIn(line: string): { readonly first: string; readonly second: string } | undefined {
  const tokens = tokensOf(line);
  const at = plusAt(tokens);
  const behind = at < 0 ? undefined : amountAt(tokens, at + 1);
  if (behind === undefined || amountAt(tokens, 0) === undefined) return undefined;
  // `plus 1 egg white for the wash`, `plus 20 g more`: words about the first one.
  const [next] = tokens.slice(behind.next);
  if (next?.kind !== 'word' || isWord(next, 'more', 'extra', 'to') || tokens.slice(at).some((token) => isWord(token, 'for'))) return undefined;
  // A comma in front of it belongs to neither.
  const first = tokens.slice(0, isSign(tokens[at - 1], ',') ? at - 1 : at);
  return { first: sliceOf(line, first), second: sliceOf(line, tokens.slice(at + 1)) };
}

/** Outside brackets, and not between an amount and its name, as in `1 cup plus 2 tbsp flour`. */
function plusAt(tokens: readonly Token[]): number {
  let depth = 0;
  return tokens.findIndex((token, index) => {
    if (isSign(token, '(', '[')) depth += 1;
    if (isSign(token, ')', ']')) depth -= 1;
    return depth === 0 && (isSign(token, '+') || isWord(token, 'plus')) && index > (amountAt(tokens, 0)?.next ?? index);
  });
}
