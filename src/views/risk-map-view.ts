import { riskMap } from '../figures/risk-map.ts';
import type { RecordOf } from '../records/record.ts';
import { notice } from './cells.ts';
import { figureBlock } from './evidence-working.ts';
import { countsOnWords, estimateOf } from './risk-words.ts';
import { type CommonOptions, captionOf, isShown, type View } from './view.ts';

interface Options extends CommonOptions {
  readonly show?: readonly ('before' | 'after')[];
}

const titles = { before: 'Before control', after: 'After control' } as const;

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const criteria = context.project.fields.risk;
  const risks = context.graph.recordsOf('risk').filter((risk) => isShown(risk, options));
  if (risks.length === 0) return { blocks: [notice('There are no risks yet.')] };
  if (!criteria)
    return { blocks: [notice('There are no risk criteria yet, so no risk has a place on a map.')] };
  const bands = criteria.probability.bands.map((band) => band.band);
  const isOnMap = (risk: RecordOf<'risk'>): boolean =>
    criteria.severities.some((severity) => severity.class === risk.fields.severity);
  const left = risks.filter((risk) => !isOnMap(risk));
  const shown = options.show ?? ['before', 'after'];
  const drawing = riskMap({
    severities: criteria.severities.map((severity) => severity.class),
    bands,
    isAcceptable: (severity, band) => {
      if (band === undefined) {
        const classes = criteria.severities.map((each) => each.class);
        return classes.indexOf(severity) <= classes.indexOf(criteria.not_estimable?.acceptable_up_to ?? '');
      }
      const highest = Object.hasOwn(criteria.acceptable, severity)
        ? criteria.acceptable[severity]
        : undefined;
      return bands.indexOf(band) <= bands.indexOf(highest ?? '');
    },
    panels: shown.map((when) => ({
      title: titles[when],
      risks: risks.filter(isOnMap).map((risk) => {
        const estimate = estimateOf(risk, when, context);
        return {
          id: risk.id,
          severity: estimate?.severity ?? risk.fields.severity,
          band: estimate?.kind === 'by probability' ? estimate.band : undefined,
        };
      }),
    })),
  });
  const unshown = shown.includes('after')
    ? risks.filter((risk) => isOnMap(risk) && countsOnWords(risk, context).length > 0)
    : [];
  if (!drawing) return { blocks: [notice('The risk criteria have no classes or no bands.')] };
  return {
    blocks: [
      figureBlock({ caption: 'Risks by severity and probability of harm', drawing }, captionOf(options)),
      ...(unshown.length === 0
        ? []
        : [
            notice(
              `Their places after control count on controls that are missing or not shown: ${unshown.map((risk) => risk.id).join(', ')}.`,
              'caution',
            ),
          ]),
      ...(left.length === 0
        ? []
        : [
            notice(
              `Not on the map, because their severity is not among the criteria: ${left.map((risk) => risk.id).join(', ')}.`,
              'caution',
            ),
          ]),
    ],
  };
};

export const riskMapView: View = { name: 'risk-map', draw };
