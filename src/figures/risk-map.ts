import {
  accent,
  alarm,
  bar,
  type Drawing,
  drawing,
  fitted,
  ink,
  line,
  polyline,
  quiet,
  words,
} from './drawing.ts';

/** One risk on the map: an id in a cell. */
export interface MappedRisk {
  readonly id: string;
  readonly severity: string;
  /** Undefined where the probability can't be estimated: such risks stand in a row of their own. */
  readonly band: string | undefined;
}

export interface RiskMapInput {
  /** Severity classes, the least grave first. */
  readonly severities: readonly string[];
  /** Bands of the probability of harm, the lowest first. */
  readonly bands: readonly string[];
  /** Whether the criteria accept a cell; a band of undefined asks for the row without estimate. */
  readonly isAcceptable: (severity: string, band: string | undefined) => boolean;
  /** One map each, side by side: before and after control. */
  readonly panels: readonly { readonly title: string; readonly risks: readonly MappedRisk[] }[];
}

const width = 640;
const lineHeight = 15;
/** Ids in one cell beyond this number are counted, not listed. */
const mostIds = 8;
const notEstimable = 'no estimate';

/** Ground and corner of a cell that the criteria don't accept: told apart by shape and lightness as well as by colour. */
const outside = '#f3dcda';

const idsIn = (risks: readonly MappedRisk[], severity: string, band: string | undefined): readonly string[] =>
  risks.filter((risk) => risk.severity === severity && risk.band === band).map((risk) => risk.id);

const listed = (ids: readonly string[]): readonly string[] =>
  ids.length <= mostIds ? ids : [...ids.slice(0, mostIds - 1), `+ ${ids.length - mostIds + 1} more`];

/**
 * Risks in a matrix of probability bands (upwards) and severity classes (to the right), as ISO/TR 24971 shows risk
 * matrices in kind; one matrix per panel. Cells outside the criteria carry a shaded ground and a marked corner.
 * Undefined where there are no classes, no bands or no panels.
 */
export function riskMap({ severities, bands, isAcceptable, panels }: RiskMapInput): Drawing | undefined {
  if (severities.length === 0 || bands.length === 0 || panels.length === 0) return undefined;
  const all = panels.flatMap((panel) => panel.risks);
  const rows: readonly (string | undefined)[] = [
    ...[...bands].reverse(),
    ...(all.some((risk) => risk.band === undefined) ? [undefined] : []),
  ];
  const nameRoom = rows.includes(undefined) ? 68 : 34;
  const panelWidth = (width - 16 * (panels.length - 1)) / panels.length;
  const cellWidth = (panelWidth - nameRoom - 2) / severities.length;
  const heights = rows.map(
    (band) =>
      Math.max(
        1,
        ...panels.flatMap((panel) =>
          severities.map((severity) => listed(idsIn(panel.risks, severity, band)).length),
        ),
      ) *
        lineHeight +
      13,
  );
  const top = 30;
  const starts = heights.map(
    (_, index) => top + heights.slice(0, index).reduce((sum, each) => sum + each, 0),
  );
  const bottom = top + heights.reduce((sum, each) => sum + each, 0);

  const panelParts = panels.flatMap(({ title, risks }, panelIndex) => {
    const left = panelIndex * (panelWidth + 16) + nameRoom;
    const cells = rows.flatMap((band, row) =>
      severities.flatMap((severity, column) => {
        const x = left + column * cellWidth;
        const y = starts[row] ?? top;
        const accepted = isAcceptable(severity, band);
        return [
          bar(x, y, cellWidth, heights[row] ?? 0, { fill: accepted ? '#ffffff' : outside, stroke: quiet }),
          ...(accepted
            ? []
            : [
                polyline(
                  [
                    [x + cellWidth - 9, y + 1.5],
                    [x + cellWidth - 1.5, y + 1.5],
                    [x + cellWidth - 1.5, y + 9],
                  ],
                  { stroke: alarm, width: 2.5 },
                ),
              ]),
          ...listed(idsIn(risks, severity, band)).map((id, index) =>
            words(x + cellWidth / 2, y + 18 + index * lineHeight, fitted(id, cellWidth - 4), {
              anchor: 'middle',
              bold: true,
            }),
          ),
        ];
      }),
    );
    return [
      words(left, 18, fitted(title, panelWidth - nameRoom), { bold: true, fill: accent }),
      ...cells,
      ...rows.map((band, row) =>
        words(
          left - 6,
          (starts[row] ?? top) + (heights[row] ?? 0) / 2 + 4,
          fitted(band ?? notEstimable, nameRoom - 8),
          { anchor: 'end' },
        ),
      ),
      ...severities.map((severity, column) =>
        words(left + (column + 0.5) * cellWidth, bottom + 17, fitted(severity, cellWidth - 4), {
          anchor: 'middle',
        }),
      ),
      line(left, bottom, left + severities.length * cellWidth, bottom, { stroke: ink, width: 1.5 }),
      line(left, top, left, bottom, { stroke: ink, width: 1.5 }),
    ];
  });
  const legend = bottom + 34;
  return drawing(width, legend + 38, alternativeText({ severities, bands, isAcceptable, panels }, rows), [
    ...panelParts,
    bar(nameRoom, legend - 2, 26, 14, { fill: outside, stroke: quiet }),
    polyline(
      [
        [nameRoom + 17, legend - 0.5],
        [nameRoom + 24.5, legend - 0.5],
        [nameRoom + 24.5, legend + 7],
      ],
      { stroke: alarm, width: 2.5 },
    ),
    words(nameRoom + 34, legend + 9, 'shaded with a marked corner: outside the criteria of the plan'),
    words(nameRoom + 34, legend + 27, 'upwards: probability of harm; to the right: severity', {
      fill: quiet,
    }),
  ]);
}

const alternativeText = (
  { severities, isAcceptable, panels }: RiskMapInput,
  rows: readonly (string | undefined)[],
): string =>
  panels
    .map(({ title, risks }) => {
      const cells = severities.flatMap((severity) =>
        rows.flatMap((band) => {
          const ids = idsIn(risks, severity, band);
          if (ids.length === 0) return [];
          const verdict = isAcceptable(severity, band) ? '' : ', outside the criteria';
          return [`severity ${severity}, ${band ?? notEstimable}${verdict}: ${ids.join(', ')}`];
        }),
      );
      return `${title}: ${cells.length === 0 ? 'no risks' : cells.join('; ')}`;
    })
    .join('. ');
