/** Colours of formulas in the fences of a Markdown page. */
import { expect, test } from 'vitest';
import { colour } from './colour';

const PAGE = 'text.html.markdown';

/** Colours of the pieces that a formula says, the page's own left out. */
async function inFences(page: string): Promise<readonly string[]> {
  const pieces = await colour(page, 'text.html.markdown');
  return pieces.flatMap(({ text, scopes }) => {
    const own = scopes.filter((scope) => !/markdown|html/.test(scope));
    return own.length === 0 ? [] : [`${text}: ${own.join(' ')}`];
  });
}

const FORMULA = 'formula "Oat loaf"\n  makes 2 loaves\n# a remark\ndough at 25 C\n  500 g oats\n  70 % water\n\nsteps\n  bake 30 min at 220 C\n';

const plain = async (text: string) => (await colour(text)).map(({ text: piece, scopes }) => `${piece}: ${scopes.join(' ')}`);

const setIn = (indent: string) => FORMULA.split('\n').map((line) => (line === '' ? '' : indent + line)).join('\n');

test.each([
  ['with backticks', `# Oats\n\n\`\`\`bake\n${FORMULA}\`\`\`\n`],
  ['with tildes, more than three', `~~~~bake\n${FORMULA}~~~~\n`],
  ['with words after the name', `\`\`\`bake for the stall\n${FORMULA}\`\`\`\n`],
  ['in capitals, with a space', `\`\`\` Bake\n${FORMULA}\`\`\`\n`],
  ['that nobody closes', `\`\`\`bake\n${FORMULA}`],
  ['set in by hand', `   \`\`\`bake\n${setIn('   ')}   \`\`\`\n`],
  ['in a list', `1. First:\n\n   \`\`\`bake\n${setIn('   ')}   \`\`\`\n`],
  ['in a list in a list', `- a\n  - b\n\n    \`\`\`bake\n${setIn('    ')}    \`\`\`\n`],
  ['set in by a tab', `- a\n\n\t\`\`\`bake\n${setIn('\t')}\t\`\`\`\n`],
])('a fence %s has the colours of a .bake file', async (_name, page) => {
  expect(await inFences(page)).toEqual(await plain(FORMULA));
});

test('what follows a closed fence is the page again', async () => {
  const pieces = await colour(`\`\`\`bake\n${FORMULA}\`\`\`\nsteps\n  bake 30 min\n`, 'text.html.markdown');
  expect(pieces.filter(({ line }) => line > 10).map(({ text, scopes }) => [text, ...scopes])).toEqual([['steps', PAGE], ['bake 30 min', PAGE]]);
  const last = pieces.filter(({ text }) => text === '```').at(-1);
  expect(last?.scopes).toEqual([PAGE, 'markup.fenced_code.block.markdown', 'punctuation.definition.markdown']);
});

test('a fence closes with as many marks as it has, or more, and of its own kind', async () => {
  expect(await inFences('````bake\n```\nlevain\n````\nlevain\n')).toEqual(['levain: keyword.control.block']);
  expect(await inFences('```bake\nlevain\n`````\nlevain\n')).toEqual(['levain: keyword.control.block']);
  expect(await inFences('~~~bake\nlevain\n~~~\nlevain\n')).toEqual(['levain: keyword.control.block']);
});

test('a second fence is coloured too, and an empty one harms nothing', async () => {
  expect(await inFences('```bake\n```\n\ntext\n\n```bake\nlevain\n```\n')).toEqual(['levain: keyword.control.block']);
});

test.each([
  ['another language', '```baker\nlevain\n```\n'],
  ['a fence that is only shown', '````text\n```bake\nlevain\n```\n````\n'],
  ['a comment', '<!--\n```bake\nlevain\n```\n-->\n'],
  ['prose', 'levain\n\n  60 g water\n'],
])('%s has no colours of formulas', async (_name, page) => {
  expect(await inFences(page)).toEqual([]);
});
