import type { PlinthFields } from '../records/fields.ts';
import { nearestName } from '../records/nearest-name.ts';

/** One thing that is wrong with the risk criteria or the sampling policy. */
export interface CriteriaFault {
  /** Path in the fields of plinth.yaml; where a plan is in force, `criteriaOrigin` says where it is written. */
  readonly path: readonly (string | number)[];
  readonly message: string;
  readonly hint: string;
}

const didYouMean = (name: string, known: readonly string[]): string => {
  const near = nearestName(name, known);
  return near ? `Did you mean "${near}"?` : `The names are: ${known.join(', ')}.`;
};

const repeated = (names: readonly string[]): readonly number[] =>
  names.flatMap((name, index) => (names.indexOf(name) < index ? [index] : []));

/** Severity classes that may be more probable than a milder class before them. Classes stand from the mildest on. */
const fallingWithSeverity = (
  risk: NonNullable<PlinthFields['risk']>,
  classes: readonly string[],
  bands: readonly string[],
): readonly CriteriaFault[] => {
  const rankOf = (name: string): number =>
    Object.hasOwn(risk.acceptable, name) ? bands.indexOf(risk.acceptable[name] ?? '') : -1;
  return classes.flatMap((name, index): readonly CriteriaFault[] => {
    const rank = rankOf(name);
    const milder = classes.slice(0, index).find((other) => rankOf(other) !== -1 && rankOf(other) < rank);
    return rank === -1 || milder === undefined
      ? []
      : [
          {
            path: ['risk', 'acceptable', name],
            message: `${name} is acceptable up to ${risk.acceptable[name]}, but the milder ${milder} only up to ${risk.acceptable[milder]}`,
            hint: 'A graver harm cannot be accepted more often than a milder one: correct one of the two bands, or the order of the severities (the mildest first).',
          },
        ];
  });
};

/** Entries of the sampling policy that ask for less than that of a milder class. */
const weakerForGraver = (
  policy: NonNullable<PlinthFields['sampling_policy']>,
  classes: readonly string[],
): readonly CriteriaFault[] =>
  policy.flatMap((entry, index): readonly CriteriaFault[] => {
    // Of two entries for one class, either may be the right one.
    if (policy.some((other, at) => at !== index && other.severity === entry.severity)) return [];
    const rank = classes.indexOf(entry.severity);
    const milder = policy.find(
      (other) =>
        classes.indexOf(other.severity) !== -1 &&
        classes.indexOf(other.severity) < rank &&
        (other.confidence > entry.confidence || other.reliability > entry.reliability),
    );
    return milder === undefined
      ? []
      : [
          {
            path: ['sampling_policy', index],
            message: `the sampling policy asks for ${entry.confidence} confidence and ${entry.reliability} of the units for ${entry.severity}, less than for the milder ${milder.severity} (${milder.confidence} and ${milder.reliability})`,
            hint: 'Ask for at least as much for the graver class.',
          },
        ];
  });

/**
 * Gaps and contradictions in the criteria: bands must rise and together cover every probability, each severity needs a
 * band up to which it is acceptable, none graver than a milder one more often, and a sampling policy answers for each of
 * them and asks for no less where the harm is graver.
 */
export const criteriaFaults = (project: PlinthFields): readonly CriteriaFault[] => {
  const { risk } = project;
  if (!risk) return [];
  const classes = risk.severities.map((severity) => severity.class);
  const { bands } = risk.probability;
  const names = bands.map((band) => band.band);
  const asked = (project.sampling_policy ?? []).map((entry) => entry.severity);
  const at = (...path: readonly (string | number)[]) => ['risk', 'probability', 'bands', ...path];
  return [
    ...repeated(classes).map((index) => ({
      path: ['risk', 'severities', index, 'class'],
      message: `the severity class ${classes[index]} stands twice`,
      hint: 'Give each class a name of its own.',
    })),
    ...repeated(names).map((index) => ({
      path: at(index, 'band'),
      message: `the band ${names[index]} stands twice`,
      hint: 'Give each band a name of its own.',
    })),
    ...bands.flatMap(({ band, below }, index): readonly CriteriaFault[] => {
      const isLast = index === bands.length - 1;
      if (isLast)
        return below === undefined
          ? []
          : [
              {
                path: at(index, 'below'),
                message: `the last band ${band} ends at ${below}, so greater probabilities lie in no band`,
                hint: 'Leave out "below" in the last band, or add a band after it.',
              },
            ];
      if (below === undefined)
        return [
          {
            path: at(index),
            message: `the band ${band} has no end, but ${names[index + 1]} follows it`,
            hint: 'Add "below" to every band but the last.',
          },
        ];
      const before = bands[index - 1]?.below;
      return before !== undefined && below <= before
        ? [
            {
              path: at(index, 'below'),
              message: `the band ${band} ends at ${below}, not above ${before}, where ${names[index - 1]} ends`,
              hint: 'Write the bands from the lowest to the highest.',
            },
          ]
        : [];
    }),
    ...classes
      .filter((name) => !Object.hasOwn(risk.acceptable, name))
      .map((name) => ({
        path: ['risk', 'acceptable'],
        message: `the severity ${name} has no entry under acceptable, so its risks cannot be judged`,
        hint: `Add "${name}" with the highest acceptable band under acceptable.`,
      })),
    ...Object.entries(risk.acceptable).flatMap(([name, band]): readonly CriteriaFault[] => [
      ...(classes.includes(name)
        ? []
        : [
            {
              path: ['risk', 'acceptable', name],
              message: `acceptable names the unknown severity ${name}`,
              hint: didYouMean(name, classes),
            },
          ]),
      ...(names.includes(band)
        ? []
        : [
            {
              path: ['risk', 'acceptable', name],
              message: `acceptable names the unknown band ${band} for ${name}`,
              hint: didYouMean(band, names),
            },
          ]),
    ]),
    ...fallingWithSeverity(risk, classes, names),
    ...(risk.not_estimable && !classes.includes(risk.not_estimable.acceptable_up_to)
      ? [
          {
            path: ['risk', 'not_estimable', 'acceptable_up_to'],
            message: `not_estimable names the unknown severity ${risk.not_estimable.acceptable_up_to}`,
            hint: didYouMean(risk.not_estimable.acceptable_up_to, classes),
          },
        ]
      : []),
    ...repeated(asked).map((index) => ({
      path: ['sampling_policy', index, 'severity'],
      message: `the severity ${asked[index]} stands twice in the sampling policy`,
      hint: 'Keep one of the two entries.',
    })),
    ...(asked.length === 0 ? [] : classes.filter((name) => !asked.includes(name))).map((name) => ({
      path: ['sampling_policy'],
      message: `the sampling policy has no entry for the severity ${name}`,
      hint: `Add "${name}" with its confidence and reliability; until then the entry of the next graver class holds.`,
    })),
    ...weakerForGraver(project.sampling_policy ?? [], classes),
    ...(project.sampling_policy ?? []).flatMap(({ severity }, index): readonly CriteriaFault[] =>
      classes.includes(severity)
        ? []
        : [
            {
              path: ['sampling_policy', index, 'severity'],
              message: `the sampling policy names the unknown severity ${severity}`,
              hint: didYouMean(severity, classes),
            },
          ],
    ),
  ];
};
