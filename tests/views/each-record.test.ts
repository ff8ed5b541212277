import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import { analyse } from '../../src/pipeline.ts';
import {
  type CompiledDocument,
  compileDocuments,
  foundInAwaiting,
} from '../../src/views/compile-document.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { compile, demonstration, said, withDocument } from './with-document.ts';

/** The copies of a document that is written for each record of a type, and the file that they are in. */
const copiesWith = (forEach: string, body: string) => {
  const files = new Map<string, string | Uint8Array>(demonstration);
  files.set(
    'documents/DOC-90.md',
    `---\nid: DOC-90\ntype: document\ntitle: Sheet\nstatus: draft\nnumber: S\nrevision: "1"\nfor_each: ${forEach}\n---\n${body}\n`,
  );
  const analysis = analyse(inputsFrom(files), []);
  const documents = compileDocuments({ ...analysis, waived: analysis.waivers.waived }, compile, 'DOC-90');
  return { analysis, documents };
};
const copies = (forEach: string, body: string): readonly CompiledDocument[] =>
  copiesWith(forEach, body).documents;

const textOf = ({ document }: CompiledDocument): string => documentText(document);

describe('a document for each record', () => {
  const sheets = copies(
    '{ type: verification-record, status: [approved] }',
    '# Sheet\n\n:each[id] :each[title], :each[executed]: :value[each/verdict] by :title[each].\n\n```plinth records\ntype: verification-protocol\nof: [each/reports]\nfields: [condition]\n```',
  );
  const of = (id: string): CompiledDocument => {
    const found = sheets.find(({ each }) => each?.id === id);
    if (!found) throw new Error(`there is no sheet of ${id}`);
    return found;
  };

  test('is written once for each, under an id, number and title of its own', () => {
    const { graph } = analyse(inputsFrom(demonstration), []);
    const records = graph.recordsOf('verification-record').filter(({ status }) => status === 'approved');
    expect(sheets.map(({ each }) => each?.id)).toEqual(records.map(({ id }) => id));
    expect(of('VR-09A').document).toMatchObject({
      id: 'DOC-90-VR-09A',
      number: 'S-VR-09A',
      title: 'Sheet VR-09A',
      subtitle: 'Tip retention, aged units',
    });
    expect(new Set(sheets.map(({ document }) => document.id)).size).toBe(sheets.length);
  });

  test('tells of its record and of what that names', () => {
    const text = textOf(of('VR-09A'));
    expect(text).toContain('VR-09A Tip retention, aged units, 2026-06-02: fail');
    expect(text).toContain('VP-09A');
    expect(text).not.toContain('VP-10');
    expect(textOf(of('VR-10'))).toContain('VP-10');
  });

  test('is signed by those who approved the record, with what they said earlier', () => {
    expect(
      of('VR-09A').document.signatures.map(({ name, date, state }) => `${name} ${date} ${state}`),
    ).toEqual(['Brede Falkonet 2026-06-05 earlier', 'Brede Falkonet 2026-06-16 in force']);
  });

  test('a fault of the text is told once, not for each copy', () => {
    const faulty = copies('{ type: user-need }', ':each[colour] :value[each/mean]');
    expect(faulty.length).toBeGreaterThan(10);
    const told = faulty.flatMap(said);
    expect(told.filter((line) => line.includes('a user-need has no field "colour"'))).toHaveLength(1);
  });

  test('in any other document there is no record that "each" could stand for', () => {
    const other = withDocument(':each[title]\n\n```plinth evidence\nof: [each]\n```');
    expect(said(other).join('\n')).toContain('this document is not written for each record of a type');
    expect(said(other).join('\n')).toMatch(/each/);
  });
});

describe('the text of a document that waits for its first record', () => {
  /** What is told of it, and how many copies there are. */
  const waiting = (forEach: string, body: string) => {
    const { documents, analysis } = copiesWith(forEach, body);
    const told = foundInAwaiting({ ...analysis, waived: analysis.waivers.waived }, compile);
    return {
      copies: documents.length,
      told: told.map(({ code, place, message }) => `${place.line} ${code}: ${message}`),
    };
  };
  const none = '{ type: verification-record, status: [in review] }';

  test('is read for all that does not hang on the record', () => {
    const { copies: written, told } = waiting(
      none,
      [
        '# Sheet of :each[colour]',
        '```plinth evidense',
        'of: [each]',
        '```',
        ':::when{each=exclusion}',
        ':phrase[no-such-wording] and a note[^9].',
        ':::',
        ':::unless{each=exclusions}',
        '![Picture](pictures/none.svg)',
        ':::',
        '```plinth records',
        'type: verification-protocol',
        'off: [each/reports]',
        '```',
      ].join('\n\n'),
    );
    expect(written).toBe(0);
    expect(told.map((line) => line.replace(/ ".*| in .*/, ''))).toEqual([
      expect.stringMatching(/^\d+ unknown-value: a verification-record has no field/),
      expect.stringMatching(/^\d+ unknown-view: unknown view/),
      expect.stringMatching(/^\d+ condition-wrong: a verification-record has no field/),
      expect.stringMatching(/^\d+ unknown-value: plinth.yaml has no wording/),
      expect.stringMatching(/^\d+ image-unusable: /),
      expect.stringMatching(/^\d+ view-body-wrong: records: /),
      expect.stringMatching(/^\d+ footnote-missing: /),
    ]);
  });

  test('gives no finding for what only the record could tell', () => {
    const sound = `# Sheet :each[id]

:each[title]: :value[each/verdict], :value[each/mean]{digits=2}, by :title[each].

:::when{each=exclusions}
:each[exclusions]
:::

\`\`\`plinth records
type: verification-protocol
of: [each/reports]
where: { status: [approved] }
\`\`\``;
    expect(waiting(none, sound)).toEqual({ copies: 0, told: [] });
    const { copies: written, told } = waiting('{ type: verification-record }', '```plinth evidense\n```');
    expect(written).toBeGreaterThan(0);
    expect(told).toEqual([]);
  });
});

describe('records of a view by name', () => {
  test('in the order that is asked for', () => {
    const shown = documentText(
      withDocument('```plinth records\ntype: user-need\nof: [UN-03, UN-01]\nfields: [status]\n```').document,
    );
    expect(shown.indexOf('UN-03')).toBeLessThan(shown.indexOf('UN-01'));
    expect(shown).not.toContain('UN-02');
  });

  test('of another type, or unknown: a finding at the line', () => {
    const wrong = withDocument('```plinth records\ntype: user-need\nof: [DI-01, UN-99]\n```');
    expect(said(wrong)).toEqual([
      expect.stringContaining('DI-01 is no user need'),
      expect.stringContaining('there is no record UN-99'),
    ]);
  });
});

describe('a conditional section', () => {
  const shown = (body: string): string => documentText(withDocument(body).document);

  test.each([
    ['records=field-data', true],
    ['records=field-data status="approved"', true],
    ['records=field-data status="in review"', false],
  ])('when %s: %s', (condition, holds) => {
    const when = shown(`Before.\n\n:::when{${condition}}\n# Experience\n\nSeen.\n:::\n\nAfter.`);
    expect(when.includes('Experience')).toBe(holds);
    expect(when).toMatch(/Before[\s\S]*After/);
    expect(shown(`:::unless{${condition}}\nNothing yet.\n:::`).includes('Nothing yet')).toBe(!holds);
  });

  test('asks for a field of the record that the document is written for', () => {
    const sheets = copies(
      '{ type: verification-record }',
      ':::when{each=retests}\nA repetition of :each[retests].\n:::\n',
    );
    const repetitions = sheets.filter((sheet) => textOf(sheet).includes('A repetition of'));
    expect(repetitions.map(({ each }) => each?.id)).toEqual(
      sheets.flatMap(({ each }) => (each?.fields['retests'] === undefined ? [] : [each.id])),
    );
    expect(repetitions.length).toBeGreaterThan(0);
  });

  test.each([
    ['records=field-dat', 'unknown record type "field-dat" | Did you mean "field-data"?'],
    ['records=field-data status=signed', 'unknown status "signed"'],
    ['each=title', 'this document is not written for each record of a type'],
    ['record=field-data', 'a condition has no "record" | Did you mean "records"?'],
    ['', 'names neither records nor a field of each'],
  ])('when %s is a finding at its line, and the text stays', (condition, message) => {
    const wrong = withDocument(`:::when{${condition}}\nStays.\n:::`);
    expect(said(wrong)).toEqual([expect.stringContaining(`condition-wrong: `)]);
    expect(said(wrong)[0]).toContain(message);
    expect(documentText(wrong.document)).toContain('Stays.');
  });
});
