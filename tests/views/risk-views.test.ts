import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import type { Cell, Figure, Table } from '../../src/document/model.ts';
import { tablesOf } from '../../src/document/tables.ts';
import { analyse } from '../../src/pipeline.ts';
import { inputsFrom } from '../support/technical-file.ts';
import { demonstration, withDocument } from './with-document.ts';

const { graph } = analyse(inputsFrom(demonstration), []);

const tableOf = (view: string, files = demonstration): Table => {
  const [table] = tablesOf(withDocument(`\`\`\`plinth ${view}\n\`\`\``, files).document.blocks);
  if (!table) throw new Error('there is no table');
  return table;
};

/** Rows as text with spanned cells repeated, so that a row can be read by itself. */
const grid = (table: Table): readonly (readonly string[])[] => {
  const open: { cell: Cell; left: number }[] = [];
  return table.rows.map((row) => {
    const own = [...row.cells];
    return table.columns.map((_, column) => {
      const above = open[column];
      if (above && above.left > 0) {
        above.left -= 1;
        return words(above.cell);
      }
      const cell = own.shift();
      if (!cell) throw new Error(`row without a cell for column ${column}`);
      open[column] = { cell, left: (cell.rowSpan ?? 1) - 1 };
      return words(cell);
    });
  });
};

const words = (cell: Cell): string =>
  documentText({ blocks: [{ kind: 'paragraph', children: cell.children }], footnotes: [] })
    .replace(/\s+/g, ' ')
    .trim();

/** The demonstration file with one text replaced in one record. */
const edited = (path: string, from: string | RegExp, to: string): typeof demonstration => {
  const text = new TextDecoder().decode(demonstration.get(path));
  const other = text.replace(from, to);
  if (other === text) throw new Error(`${path} does not hold ${from}`);
  return new Map([...demonstration, [path, new TextEncoder().encode(other)]]);
};

describe('an estimate that counts on what is not shown', () => {
  const failed = edited('verification/data/VR-24.csv', /,pass$/m, ',fail');

  test('is said beside "within the criteria", in every view of the residual risk', () => {
    const open = 'counts on what is not shown: RC-13 (failed)';
    for (const view of ['risk-table', 'hazard-traceability', 'residual-risks']) {
      const shown = grid(tableOf(view, failed)).map((row) => row.join(' | '));
      expect(shown.filter((row) => row.includes('RK-10')).join('\n'), view).toContain(open);
      expect(
        grid(tableOf(view))
          .map((row) => row.join(' | '))
          .join('\n'),
        `${view} of the file as it is`,
      ).not.toContain('counts on');
    }
  });

  test('is said under the map', () => {
    const { document } = withDocument('```plinth risk-map\n```', failed);
    expect(documentText(document)).toContain(
      'Their places after control count on controls that are missing or not shown: RK-10',
    );
  });
});

describe('risks that no criteria judge', () => {
  test('have not passed, although their controls work', () => {
    const { standing } = analyse(inputsFrom(edited('risks/RP-01.md', 'criteria:', 'criterion:')));
    const risks = graph.recordsOf('risk').map(({ id }) => standing.get(id));
    expect(risks.map((each) => each?.state)).toEqual(risks.map(() => 'in doubt'));
    expect(risks[0]?.reason).toBe('there are no criteria by which RK-01 could be judged');
  });

  test('a class that the criteria do not have', () => {
    const { standing } = analyse(inputsFrom(edited('risks/RK-11.md', 'severity: S2', 'severity: S9')));
    expect(standing.get('RK-11')?.state).toBe('in doubt');
    expect(standing.get('RK-01')?.state).toBe('passed');
  });
});

describe('the review in full', () => {
  const { document } = withDocument('```plinth records\ntype: risk-review\nform: full\n```');

  test('has what objects hold under names of their own', () => {
    const particulars = document.blocks.flatMap((block) =>
      block.kind === 'particulars' ? block.entries.map((entry) => entry.name) : [],
    );
    expect(particulars).toEqual(
      expect.arrayContaining([
        'Overall residual risk, considered: comparison',
        'Overall residual risk: decision',
        'Overall residual risk: reason',
      ]),
    );
  });

  test('and lists of objects as tables', () => {
    const plan = withDocument('```plinth records\ntype: surveillance-plan\nform: full\n```');
    const [sources, thresholds] = tablesOf(plan.document.blocks);
    expect(sources?.columns.map((column) => column.title)).toEqual([
      'Source',
      'Interval in months',
      'Informs',
    ]);
    expect(sources?.rows).toHaveLength(6);
    expect(thresholds?.columns.map((column) => column.title)).toEqual(['Risk', 'Counts', 'Events']);
  });
});

describe('the traceability of hazards', () => {
  const rows = grid(tableOf('hazard-traceability'));

  test('has a row for every pair of risk and control, and no other', () => {
    const pairs = graph
      .recordsOf('risk-control')
      .flatMap((control) => control.fields.controls.map((risk) => `${risk} ${control.id}`));
    const shown = rows.map((row) => `${row[1]?.slice(0, 5)} ${row[3]?.slice(0, 5)}`);
    expect([...shown].sort()).toEqual([...pairs].sort());
  });

  test('tells two risks of one hazard under that hazard', () => {
    const stress = rows.filter((row) => row[0] === 'mechanical stress').map((row) => row[1]?.slice(0, 5));
    expect(stress).toEqual(['RK-02', 'RK-03']);
  });

  test('shows the failed result beside the one that repeats it', () => {
    const loose = rows.find((row) => row[1]?.startsWith('RK-03'));
    expect(loose?.[5]).toMatch(/VP-09A: VR-09A fail, VR-09B pass/);
  });

  test('a residual risk outside the criteria names the decision, or that there is none', () => {
    const reuse = rows.find((row) => row[1]?.startsWith('RK-10'));
    expect(reuse?.[6]).toMatch(/not within the criteria accepted by BR-01/);
    const undecided = grid(
      tableOf(
        'hazard-traceability',
        edited('risks/BR-01.md', 'benefit outweighs risk', 'benefit does not outweigh risk'),
      ),
    ).find((row) => row[1]?.startsWith('RK-10'));
    expect(undecided?.[6]).toMatch(/no decision in force/);
  });

  test('a risk without a control keeps its row and says so', () => {
    const bare = grid(
      tableOf('hazard-traceability', edited('risks/RC-04.md', 'status: approved', 'status: retired')),
    ).find((row) => row[1]?.startsWith('RK-02'));
    expect(bare?.slice(3, 6)).toEqual(['no control', 'no control', 'no control']);
  });
});

describe('the options of control', () => {
  test('stand in the order of priority, with the reason for a later one', () => {
    const seal = grid(tableOf('control-options')).filter((row) => row[0]?.startsWith('RK-01'));
    expect(seal.map((row) => row[1]?.slice(0, 5))).toEqual(['RC-01', 'RC-02', 'RC-03']);
    expect(seal[1]?.[2]).toMatch(/^protective measure The width of the seal is already fixed/);
  });

  test('say where the reason is missing', () => {
    const files = edited('risks/RC-02.md', /^option_reason:.*\n/m, '');
    const row = grid(tableOf('control-options', files)).find((each) => each[1]?.startsWith('RC-02'));
    expect(row?.[2]).toBe('protective measure no reason given');
  });
});

describe('the residual risks that users are told of', () => {
  test('stand with the wording of the instructions', () => {
    const rows = grid(tableOf('residual-risks'));
    expect(rows.map((row) => row[0]?.slice(0, 5))).toEqual(['RK-01', 'RK-04', 'RK-10', 'RK-12']);
    expect(rows[3]?.[3]).toMatch(/^Use granules of 0\.25 to 1\.0 mm only/);
    expect(rows[3]?.[4]).toBe('DO-09, revision C');
  });

  test('say where the wording is missing', () => {
    const rows = grid(
      tableOf('residual-risks', edited('design-outputs/DO-09.md', '  - risk: RK-12\n', '  - risk: RK-11\n')),
    );
    expect(rows.find((row) => row[0]?.startsWith('RK-12'))?.[3]).toBe('not in the instructions for use');
  });
});

describe('the risk map', () => {
  const figureOf = (body: string, files = demonstration): Figure => {
    const figure = withDocument(`\`\`\`plinth risk-map\n${body}\n\`\`\``, files).document.blocks.find(
      (block): block is Figure => block.kind === 'figure',
    );
    if (!figure) throw new Error('there is no figure');
    return figure;
  };

  test('places the risks of the scenario as its table has them', () => {
    const { alternative } = figureOf('');
    expect(alternative).toContain('Before control: ');
    expect(alternative).toContain('severity S5, O2, outside the criteria: RK-10');
    expect(alternative).toContain('severity S4, O1: RK-01, RK-02, RK-03, RK-09');
    expect(alternative).toContain('severity S2, O5, outside the criteria: RK-05, RK-12');
  });

  test('one estimate alone', () => {
    expect(figureOf('show: [after]').alternative).not.toContain('Before control');
  });

  test('a severity that the criteria do not have is named below, not dropped', () => {
    const document = withDocument(
      '```plinth risk-map\n```',
      edited('risks/RK-02.md', 'severity: S4', 'severity: S9'),
    );
    expect(documentText(document.document)).toContain(
      'Not on the map, because their severity is not among the criteria: RK-02.',
    );
  });
});
