/** `# accept CODE: reason`: what it covers, and when it is itself a finding. */
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../server/core/checks';
import type { Check } from '../../../server/core/checks/check';
import { parse } from '../../../grammar';
import { sectionsOf } from '../../../server/core/formula/sections';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { defaultLimits } from '../../../server/core/checks/limits';
import { reportsOf } from '../../../server/core/checks/reports';
import { analyseText, findingsIn } from '../bake';

const codes = (text: string) => findingsIn(text).map(({ code }) => code);

const salty = (line: string, head = 'dough', above = '') => `formula "Country loaf"
${above}
${head}
  1000 g    bread flour
  700 g     water
${line}
`;

describe('what it covers', () => {
  test('the line it stands on', () => {
    expect(codes(salty('  35 g      salt # accept salt-high: for the brine'))).toEqual([]);
  });

  test('the next line, when it is alone on its line', () => {
    expect(codes(salty('  # accept salt-high: for the brine\n  35 g      salt'))).toEqual([]);
  });

  test('the next line over blank lines and other comments', () => {
    expect(codes(salty('  # accept salt-high: for the brine\n\n  # coarse\n  35 g      salt'))).toEqual([]);
  });

  test('no other line', () => {
    expect(codes(salty('  35 g      salt\n  1 g       instant yeast # accept salt-high: for the brine'))).toEqual(['salt-high', 'accept-unused']);
    expect(codes(salty('  35 g      salt\n  # accept salt-high: for the brine'))).toEqual(['salt-high', 'accept-unused']);
  });

  test('no other code', () => {
    expect(codes(salty('  35 g      salt # accept salt-low: for the brine'))).toEqual(['salt-high', 'accept-unused']);
  });

  test('the whole block, on its head line or above it', () => {
    expect(codes(salty('  35 g      salt', 'dough # accept salt-high: for the brine'))).toEqual([]);
    expect(codes(salty('  35 g      salt', 'dough', '\n# accept salt-high: for the brine'))).toEqual([]);
  });

  test('the whole formula, on the head of the formula', () => {
    const text = salty('  35 g      salt').replace('loaf"', 'loaf" # accept salt-high: for the brine');
    expect(codes(text)).toEqual([]);
  });

  test('not the formula beside it', () => {
    const first = salty('  20 g      salt').replace('loaf"', 'loaf" # accept salt-high: for the brine');
    const second = salty('  35 g      salt').replace('Country', 'Village');
    expect(codes(`${first}\n${second}`)).toEqual(['accept-unused', 'salt-high']);
  });

  test('the lines that refine the line', () => {
    const folds = (comment: string) => `${salty('  20 g      salt')}
steps
  mix         8 min
  bulk        1 h at 24 C ${comment}
    fold      at 90 min
`;
    expect(codes(folds('')).filter((code) => code !== 'no-leaven')).toEqual(['fold-outside-bulk']);
    expect(codes(folds('# accept fold-outside-bulk: the dough is slow'))).toEqual(['no-leaven']);
  });

  test('several codes in one comment', () => {
    const text = (comment: string) => `formula "Country loaf"

dough ${comment}
  1000 g    bread flour
  1100 g    water
`;
    expect(codes(text(''))).toEqual(['hydration-high', 'salt-low']);
    expect(codes(text('# accept hydration-high, salt-low: a batter for the iron'))).toEqual([]);
  });
});

test('what is accepted is kept with its reason, in the order of the text', () => {
  const accepted = analyseText(`${salty('  35 g      salt # accept salt-high: for the brine')}
steps
  # accept fold-outside-bulk: the dough is slow
  bulk        1 h at 24 C
    fold      at 90 min
`).flatMap((analysis) => analysis.accepted);
  expect(accepted.map(({ finding, reason }) => `${finding.code}: ${reason}`)).toEqual(['salt-high: for the brine', 'fold-outside-bulk: the dough is slow']);
});

describe('when it is a finding', () => {
  test('without a reason it silences nothing and is not called unused as well', () => {
    expect(codes(salty('  35 g      salt # accept salt-high'))).toEqual(['salt-high', 'accept-without-reason']);
  });

  test('a code that does not exist is named, with the nearest one', () => {
    const [found] = findingsIn(salty('  20 g      salt # accept salt-hihg: for the brine'));
    expect(found!.code).toBe('accept-unused');
    expect(found!.text).toBe('salt-hihg');
    expect(found!.message).toBe('No check is called salt-hihg. Did you mean “salt-high”?');
  });

  test('of two codes only the idle one is a finding, and nothing offers to take the other away', () => {
    const [found, ...others] = findingsIn(salty('  35 g      salt # accept salt-high, salt-low: for the brine'));
    expect(others).toEqual([]);
    expect(found!.text).toBe('salt-low');
    expect(found!.finding.fixes).toEqual([]);
  });

  test('the fix takes a comment of its own line away with the line', () => {
    const [found] = findingsIn(salty('  # accept salt-high: for the brine\n  20 g      salt'));
    expect(found!.after(found!.finding.fixes[0]!)).toBe(salty('  20 g      salt'));
  });

  test('it cannot be accepted itself', () => {
    expect(codes(salty('  # accept accept-unused: quiet\n  20 g      salt # accept salt-high: for the brine'))).toEqual(['accept-unused', 'accept-unused']);
  });
});

describe('a check with a fault', () => {
  const section = sectionsOf(parse(salty('  35 g      salt # accept broken: it is')).blocks.map(({ block }) => block))[0]!.section;
  const context = {
    section,
    formula: undefined,
    totals: undefined,
    catalogue: builtInCatalogue,
    useProblem: undefined, namesakes: undefined,
    day: undefined,
    zone: undefined,
    knownFormulas: new Set<string>(),
    formulaNamed: () => undefined,
    limits: defaultLimits([]),
    reports: reportsOf(undefined, undefined),
  };
  const page = { severity: 'info', title: '', why: '', source: '', trips: '', passes: '' } as const;
  const broken: Check = {
    ...page,
    code: 'broken',
    run: () => {
      throw new Error('a bug');
    },
  };
  const sound: Check = {
    ...page,
    code: 'sound',
    run: () => [{ code: 'sound', severity: 'info', message: 'Fine.', place: { block: 0, start: 0, end: 1 }, fixes: [], related: [] }],
  };

  test('is told, and the others go on', () => {
    const faults: string[] = [];
    const { findings: found } = runChecks(context, (code, fault) => faults.push(`${code}: ${String(fault)}`), [broken, sound]);
    expect(faults).toEqual(['broken: Error: a bug']);
    expect(found.map(({ code }) => code)).toEqual(['sound']);
  });

  test('is silent when nobody listens', () => {
    expect(runChecks(context, undefined, [broken]).findings).toEqual([]);
  });
});
