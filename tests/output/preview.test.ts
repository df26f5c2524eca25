import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar';
import { analyse } from '../../server/core/analyse';
import { sectionsOf } from '../../server/core/formula/sections';
import { builtInCatalogue, extend } from '../../server/core/ingredients/catalogue';
import { timelineOf } from '../../server/core/timeline/timeline';
import type { TimelineRequest } from '../../server/core/timeline/model';
import type { FormulaEntry } from '../../server/output/entry';
import type { Preview } from '../../server/output/preview/page';
import { renderPreview, type PreviewInput } from '../../server/output/preview/preview';

const marketMorning: TimelineRequest = { anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) }, zone: 'Europe/Lisbon' };

/** The preview of the first formula or dish of a text; undefined where it has none. */
function previewOf(...asked: Parameters<typeof inputOf>): Preview | undefined {
  const input = inputOf(...asked);
  return input && renderPreview(input);
}

function inputOf(
  text: string, { request = marketMorning, timed = true, label }: { readonly request?: TimelineRequest; readonly timed?: boolean; readonly label?: FormulaEntry['label'] } = {},
): PreviewInput | undefined {
  const tree = parse(text);
  const blocks = tree.blocks.map(({ block }) => block);
  const placed = sectionsOf(blocks).find(({ section }) => section.kind === 'formula' || section.kind === 'dish');
  if (placed === undefined) return undefined;
  const { section, first } = placed;
  const env = { catalogue: extend(builtInCatalogue, blocks), formulas: new Map(), measures: 'us' } as const;
  const { formula, totals, sheet, findings } = analyse(section, env, (code, fault) => {
    throw new Error(code, { cause: fault });
  });
  const lineOf = ({ block, start }: { block: number; start: number }): number =>
    text.slice(0, tree.blocks[first + block]!.offset + start).split('\n').length;
  return {
    section, formula: formula!, totals: totals!, sheet: sheet!, lineOf, request, ...(label && { label }),
    timeline: timed ? timelineOf(formula!, request) : undefined,
    findings: findings.map(({ severity, message, place }) => ({ severity, message, line: lineOf(place) })),
  };
}

const rye = `formula "Walnut rye"
  makes     2 loaves of 800 g
  style     hearth, with inclusions
  loses     12 % in the oven

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  keep      20 g
  ripen     8 h at 24 C

dough at 25 C
  650 g     bread flour
  150 g     dark rye flour
  560 g     water
  all       levain
  17 g      salt
  100 g     walnuts, toasted
  20 g      rice flour for dusting

steps
  mix         8 min, by hand
  bulk        3 h 30 min at 24 C
    fold      at 30 min
    fold      at 60 min
  shape       10 min
  retard      10 to 14 h at 4 C
  preheat     60 min at 240 C
  bake        40 min at 240 C, until core 97 C
  cool        2 h
`;

/** What a reader sees, one piece of text after another. */
function words(html: string): string {
  const text = html.replace(/<title>[^<]*<\/title>/g, '').replace(/<[^>]*>/g, ' ').replace(/&quot;/g, '"').replace(/&#39;/g, "'");
  return text.replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&').replace(/\s+/g, ' ');
}

/** Every start tag with its attributes, and a check that each is closed where it should be. */
function tagsOf(html: string): readonly { readonly name: string; readonly attributes: string }[] {
  const open: string[] = [];
  const tags: { name: string; attributes: string }[] = [];
  for (const [, close, name = '', attributes = '', empty] of html.matchAll(/<(\/?)([a-zA-Z0-9]+)((?:\s+[\w-]+(?:="[^"<>]*")?)*)\s*(\/?)>/g)) {
    if (close) expect(open.pop()).toBe(name);
    else {
      tags.push({ name, attributes });
      if (!empty && name !== 'input') open.push(name);
    }
  }
  expect(open).toEqual([]);
  return tags;
}

const TAGS = new Set(
  ('header h1 h2 h3 p dl div dt dd small section ul ol li span b code details summary label button time table thead tbody tfoot tr th td select option input figure '
    + 'figcaption svg defs pattern rect path circle line text g title').split(' '),
);

describe('the preview of a formula', () => {
  const { title, html } = previewOf(rye)!;

  test('says what it makes and its totals in words', () => {
    expect(title).toBe('Walnut rye');
    expect(words(html)).toContain('2 loaves of');
    // 60 + 6 of the levain less a share of it kept: the numbers themselves are tested where they are computed.
    expect(words(html)).toMatch(/For every 100 g of flour the dough has [\d.]+ g of water, [\d.]+ g of salt and [\d.]+ g of inclusions, and [\d.]+ % of the flour is fermented ahead\./);
  });

  test('has the sheet as a table: a row header for each ingredient, a column group for each part, sums under them', () => {
    const table = html.slice(html.indexOf('<table>'), html.indexOf('</table>'));
    expect([...table.matchAll(/<th scope="colgroup"[^>]*>([^<]*)/g)].map(([, name]) => name)).toEqual(['Total formula', 'Levain', 'Final dough']);
    expect(table.match(/<th scope="row">/g)).toHaveLength(7 + 1 + 2); // ingredients and levain, the sum, what is kept and what is left
    expect(words(table)).toContain('kept back −20');
    expect(words(table)).toContain('for the dough 112');
    expect(words(html)).toContain('20 g rice flour for dusting');
  });

  test('every element that stands for a line stands for the right one', () => {
    const lines = rye.split('\n');
    const links = [...html.matchAll(/<button[^>]*data-line="(\d+)">([^<]*)</g)];
    expect(links.length).toBeGreaterThanOrEqual(20);
    for (const [, line, text = ''] of links) {
      if (/^(mix the|[A-Z])/.test(text)) continue; // names that nobody wrote like that
      expect(lines[Number(line) - 1]!.replace(/\s+/g, ' ')).toContain(text);
    }
  });

  test('the make-up of the dough is said in words beside the picture', () => {
    const section = html.slice(html.indexOf('class="make-up"'), html.indexOf('class="timeline"'));
    expect(words(section)).toMatch(/Flour \d+ g [\d.]+ %.*Water \d+ g.*Other \(salt\) 17 g.*Inclusions, carried by it 100 g/);
  });

  test('the timeline’s picture has a text in its place, and every step of it is in the list', () => {
    expect(html).toMatch(/role="group" aria-label="Timeline\. Begun Thu 12 Mar [\d:]+, ready Sat 14 Mar 08:00, [^"]*Every step with its time is in the list below\."|role="group" aria-label="Timeline\. Begun Fri 13 Mar/);
    const list = words(html.slice(html.indexOf('class="method"')));
    for (const [, step] of html.matchAll(/<title>([^,<]*)/g)) expect(list).toContain(step);
    expect(list).toMatch(/06:00 cool 2 h/);
    expect(list).toContain('Sat 14 Mar');
  });

  test('the clock is that of the zone', () => {
    const inParis = words(previewOf(rye, { request: { ...marketMorning, zone: 'Europe/Paris' } })!.html);
    expect(inParis).toMatch(/ready Sat 14 Mar 09:00/);
    expect(inParis).toMatch(/07:00 cool/);
  });

  test('the hours on the axis go on by the clock over a change of summer time', () => {
    const request: TimelineRequest = { anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 29, 7) }, zone: 'Europe/Lisbon' };
    const html = previewOf(rye, { request })!.html;
    const hours = [...html.matchAll(/class="hour-label"[^>]*>([\d:]+)</g)].map(([, hour]) => Number(hour!.slice(0, 2)));
    const step = (hours[1]! - hours[0]! + 24) % 24;
    expect(hours.length).toBeGreaterThan(3);
    hours.reduce((before, hour) => {
      expect((hour - before + 24) % 24).toBe(step);
      return hour;
    });
  });

  test('a short day has quarters or halves of hours on its axis', () => {
    const hours = (minutes: number): unknown => [...previewOf(`dish "Crumbs"\npart\n  200 g sugar\nsteps\n  bake ${minutes} min at 170 C\n`)!.html.matchAll(/class="hour-label"[^>]*>([\d:]+)</g)].map(([, hour]) => hour);
    expect(hours(50)).toEqual(['07:15', '07:30', '07:45', '08:00']);
    expect(hours(100)).toEqual(['06:30', '07:00', '07:30', '08:00']);
  });

  test('hands at work are told apart by shape and by words, not by colour', () => {
    expect(html).toMatch(/<svg class="step hands-on"[^>]*><title>mix, 8 min, hands at work, Fri 13:32 – 13:40, can begin 11:32 to 15:32</);
    expect(html).toMatch(/<svg class="step waiting"[^>]*><title>retard, 12 h, Fri 17:20 – 05:20 Sat, into the fridge, out of the fridge, can begin 15:20 to 19:20</);
    expect(html).toContain('<span class="unseen"> (hands at work)</span>');
  });

  test('without a timeline the method is listed as written', () => {
    const html = previewOf(rye, { timed: false })!.html;
    expect(html).toContain('<section id="timeline" hidden></section>');
    expect(words(html)).toMatch(/Method Levain ripen 8 h at 24 C \(75 F\) mix 8 min, by hand bulk 3 h 30 min at 24 C \(75 F\) fold at 30 min fold at 60 min shape/);
  });

  test('findings lead to their lines', () => {
    const html = previewOf(rye.replace('17 g      salt', '170 g     salt'))!.html;
    const [, line] = /<li class="\w+"><span class="severity">\w+<\/span> <button[^>]*data-line="(\d+)">[^<]*salt[^<]*</i.exec(html) ?? [];
    expect(rye.split('\n')[Number(line) - 1]).toContain('salt');
  });
});

describe('what the arithmetic says', () => {
  const section = (html: string, id: string): string => new RegExp(`<section id="${id}".*?</section>`, 's').exec(html)?.[0] ?? '';
  const roomy = rye.replace('  style ', '  room      22 C\n  fridge    4 C\n  style ');
  const { html } = previewOf(roomy)!;

  test('the water for the dough, and how far it ferments', () => {
    expect(words(section(html, 'temperature'))).toMatch(/Dough temperature water to use \d+ °C \(\d+ °F\) by heat balance; the factor rule, with no friction measured, says \d+ °C/);
    expect(words(section(html, 'fermentation'))).toMatch(/estimates: watch the dough levain about ripe when it goes in.* bulk counts as .* retard adds/);
  });

  test('food facts as a table with heads for rows and columns, allergens by both lists', () => {
    const table = section(html, 'food');
    expect(table.match(/<th scope="row">/g)).toHaveLength(9);
    expect([...table.matchAll(/<th scope="col">([^<]*)/g)].map(([, name]) => name)).toEqual(['100 g', 'a slice of 50 g', 'one loaf']);
    expect(words(table)).toMatch(/energy in kJ \d+ kJ \d+ kJ \d+ kJ/);
    expect(words(table)).toContain('An estimate from composition tables');
    expect(words(section(html, 'allergens'))).toContain('EU cereals containing gluten (rye, wheat), nuts (walnut) US tree nuts (walnut), wheat');
    expect(section(html, 'cost')).toContain('hidden');
  });

  test('as the settings want labels', () => {
    const american = previewOf(roomy, { label: { allergens: 'us', labelRounding: 'us' } })!.html;
    expect(words(section(american, 'allergens'))).not.toContain('EU');
    expect(words(section(american, 'food'))).toContain('21 CFR 101.9(c)');
    expect(words(section(american, 'food'))).toMatch(/calories \d+0 \d+0 /);
  });

  test('a table of nothing but dashes is a sentence', () => {
    const food = section(previewOf(rye.replace('walnuts, toasted', 'moon cheese'))!.html, 'food');
    expect(food).not.toContain('<table');
    expect(words(food)).toContain('Not known: any of it, for want of the composition of moon cheese.');
  });

  test('cautions lead to their lines, with their guidance; local rules come first', () => {
    const cautions = section(previewOf(rye.replace('at 240 C, until', 'at 240 C, lid on, until'))!.html, 'cautions');
    const [, line] = /data-line="(\d+)">The pot and its lid/.exec(cautions) ?? [];
    expect(rye.split('\n')[Number(line) - 1]).toContain('bake');
    expect(words(cautions)).toContain('US FDA advice on raw flour');
    expect(words(cautions)).toContain('Local food rules come first.');
  });

  test('temperatures of the method in both scales, whichever is written', () => {
    const method = words(section(previewOf(`${roomy.replace('cool        2 h', 'rest        1 h at room\n  cool        2 h at 75 F').replace('40 min at 240 C', '40 min at 465 to 480 F')}`)!.html, 'method'));
    for (const text of ['at 240 C (465 F)', 'until core 97 C (207 F)', 'at 4 C (39 F)', 'at room (22 C, 72 F)', 'at 75 F (24 C)', '465 to 480 F (240 to 250 C)']) expect(method).toContain(text);
  });
});

test('hours off are hatched, what may move has a whisker, and moments that need a hand a sign', () => {
  const hoursOff = [{ kind: 'asleep', fromMinute: 22 * 60, toMinute: 4 * 60 }] as const;
  const html = previewOf(rye, { request: { ...marketMorning, hoursOff } })!.html;
  const lanes = html.slice(html.indexOf('class="lanes"'), html.indexOf('<figcaption>'));
  // Twice: in the lane of the levain and in that of the method.
  expect([...lanes.matchAll(/<rect class="off"/g)]).toHaveLength(2);
  // Into the fridge and out, oven on, in and out of the oven.
  expect([...lanes.matchAll(/<path class="hand"/g)]).toHaveLength(5);
  expect(lanes).toContain('<line class="whisker"');
  expect(words(html)).toContain('hands at work by itself a hand, for a moment can begin between asleep or away night now');
  const { html: plain } = previewOf(rye)!;
  expect(plain).not.toContain('class="off"');
});

test('every bar has a name and leads to its line, and one of them is a stop of the tab key', () => {
  const bars = [...previewOf(rye)!.html.matchAll(/<(?:svg class="step|g class="inside)[^>]*data-line="(\d+)" role="button" tabindex="(-?\d)" aria-label="([^,"]*)/g)];
  expect(bars).toHaveLength(11);
  for (const [, line, , name = ''] of bars) if (!name.startsWith('mix the')) expect(rye.split('\n')[Number(line) - 1]).toContain(name);
  expect(bars.filter(([, , stop]) => stop === '0').map(([, , , name]) => name)).toEqual(['mix the levain']);
});

test('a time that cannot be kept is said with the ways out', () => {
  const hoursOff = [{ kind: 'asleep', fromMinute: 22 * 60, toMinute: 6 * 60 + 30 }] as const;
  const said = words(previewOf(rye, { request: { ...marketMorning, hoursOff } })!.html);
  expect(said).toMatch(/To be ready Sat .* These cannot all hold: .*asleep 22:00 to 06:30.* Any one of these would do: .* instead of /);
});

test('a time that a plan says is shown and not asked for', () => {
  const { section, ...rest } = inputOf(rye)!;
  const html = renderPreview({ section, ...rest, timeBy: { name: 'Market', line: 40 } }).html;
  expect(words(html)).toContain('Ready by Sat 14 Mar 08:00, as the plan “Market” has it. Europe/Lisbon');
  expect(html).not.toContain('anchor-time');
  expect(html).toContain('data-line="40">the plan');
});

test('a time can be forgotten where it was chosen, and written as a plan where the formula has a name', () => {
  const input = inputOf(rye)!;
  const actions = (html: string): unknown => [...html.matchAll(/data-do="(time-\w+)"/g)].map(([, action]) => action);
  expect(actions(renderPreview({ ...input, isChosen: true }).html)).toEqual(['time-forget', 'time-plan']);
  expect(actions(renderPreview(input).html)).toEqual(['time-plan']);
  expect(actions(previewOf(rye.replace('"Walnut rye"', ''))!.html)).toEqual([]);
});

test('steps that cannot all hold are said with their lines, in place of a picture', () => {
  const html = previewOf(rye.replace('fold      at 60 min', 'fold      every 1 min'))!.html;
  expect(html).toMatch(/<p class="conflict">[^<]+<\/p><p class="quiet">These cannot all hold:<\/p><ul class="facts"><li><button/);
  expect(html).not.toContain('class="lanes"');
});

test('a dish shows what each of its parts weighs, and no percentages', () => {
  const html = previewOf('dish "Crumb pudding"\n  serves 4\n\ncustard\n  3 eggs\n  400 g milk\n\nsteps\n  bake 40 min at 170 C\n')!.html;
  expect(words(html)).toContain('serves 4');
  expect(words(html)).toMatch(/Custard g eggs \d+ milk 400 together \d+/);
  expect(words(html.slice(html.indexOf('<table>'), html.indexOf('</table>')))).not.toContain('%');
});

test('nothing from a file becomes markup', () => {
  const evil = '<img src=x onerror=alert(1)>';
  const html = previewOf(`formula "${evil}"
  style     ${evil}, '"><script>alert(1)</script>
  makes     2 <b>loaves</b> of 800 g
dough "</section>${evil}"
  500 g     "${evil}"
  500 g     "&lt;b&gt;"
  300 g     water for ${evil}, ${evil}
steps
  do "${evil}" 10 min, ${evil} '"><svg onload=alert(1)>
`)!.html;
  for (const { name, attributes } of tagsOf(html)) {
    expect(TAGS).toContain(name);
    // What stands in quotes is a value, whatever it says.
    expect(attributes.replace(/="[^"]*"/g, '')).not.toMatch(/\son|\ssrc|\shref|\sstyle/);
  }
  expect(html.replace(/<[^<>]*>/g, '')).not.toMatch(/[<>]/);
  expect(html).toContain('&amp;lt;b&amp;gt;');
});

test('every section is there in one order, hidden when it is empty, so that a page can be patched in place', () => {
  const sections = (text: string): unknown => [...previewOf(text)!.html.matchAll(/<section id="([\w-]+)"/g)].map(([, id]) => id);
  const all = ['size', 'findings', 'sheet', 'make-up', 'temperature', 'fermentation', 'timeline', 'method', 'cautions', 'records', 'food', 'allergens', 'cost', 'label'];
  expect(sections(rye)).toEqual(all);
  expect(sections('formula "Nothing yet"')).toEqual(all);
  expect(sections('dish "Crumbs"\npart\n  200 g sugar')).toEqual(all);
});

test('the ingredients as on a label, heaviest first, with what the law wants set off in bold', () => {
  const html = previewOf(rye)!.html;
  const list = /<p class="list">(.*?)<\/p>/.exec(html)?.[1] ?? '';
  expect(list).toMatch(/^Bread flour \(<b>WHEAT<\/b>\), water, dark <b>RYE<\/b> flour, <b>WALNUTS<\/b>, .*salt/);
  expect(words(html)).toContain('Ingredients list a draft: local food law comes first');
});

test('the last bakes stand beside the plan, the latest first, and the pace of the kitchen; without records nothing is said', () => {
  const bake = (day: number): string => `\nrecord 2026-05-0${day}\n  room 22 C\n  bulk 3 h ${day} min, volume 70 %\n`;
  const html = previewOf(rye + [1, 2, 3, 4].map(bake).join(''))!.html;
  const section = /<section id="records".*?<\/section>/s.exec(html)?.[0] ?? '';
  expect([...section.matchAll(/data-line="(\d+)">(\S+): bulk planned 3 h 30 min, was 3 h (\d) min/g)].map(([, line, date, minute]) => [Number(line), date, minute])).toEqual(
    [4, 3, 2].map((day) => [rye.split('\n').length + 1 + (day - 1) * 4, `2026-05-0${day}`, String(day)]),
  );
  expect(words(section)).toMatch(/and 1 before .*(pace|bulk)/);
  expect(previewOf(rye)!.html).toContain('<section id="records" hidden></section>');
});

describe('whatever is written', () => {
  const check = (text: string): void => {
    const preview = previewOf(text);
    if (preview === undefined) return;
    tagsOf(preview.html);
    expect(preview.html).not.toMatch(/\b(NaN|undefined|null|Infinity|\[object)/);
    expect(previewOf(text)).toEqual(preview);
  };

  test('half a formula has a preview at every point of its being typed', () => {
    for (let end = 0; end <= rye.length; end += 7) check(rye.slice(0, end));
  });

  test('lines left out, doubled and mixed', () => {
    const lines = rye.split('\n');
    fc.assert(fc.property(fc.array(fc.constantFrom(...lines), { maxLength: 30 }), (some) => check(`formula "Mixed"\n${some.join('\n')}`)), { numRuns: 60 });
  });
});

test('a total that cannot be known is a dash, and the top of the page says why', () => {
  const text = 'formula "Stall loaf"\n  makes 0 loaves of 900 g\n\ndough\n  100 % bread flour\n  70 % water\n';
  const { html } = previewOf(text)!;
  expect(html).toContain('<p class="in-words">Not known: makes says no pieces.</p>');
  expect(html).toContain('–');
  expect(previewOf(text.replace('0 loaves', '2 loaves'))!.html).not.toContain('Not known');
});

test('a hydration that cannot be known is a dash, and says of what', () => {
  const { html } = previewOf('formula "Sap loaf"\n\ndough\n  500 g bread flour\n  300 g "birch sap"\n  10 g salt\n')!;
  expect(words(html)).toContain('Not known of birch sap: its water, salt, sugar and fat.');
  expect(words(html)).toMatch(/Hydration – water over flour/);
});

test('a dough without plain water says where its moisture is counted', () => {
  const dough = (liquid: string): string => words(previewOf(`formula "Milk loaf"\n\ndough\n  500 g bread flour\n  300 g ${liquid}\n  10 g salt\n`)!.html);
  expect(dough('milk')).toMatch(/Hydration 0\.0 % no line is plain water; see effective hydration Effective hydration 5\d\.\d %/);
  expect(dough('water')).toContain('Hydration 60.0 % water over flour');
});
