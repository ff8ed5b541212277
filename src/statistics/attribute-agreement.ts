/**
 * Attribute measurement study: inspectors sort the same units several times, if possible against a standard (AIAG,
 * Measurement Systems Analysis, 4th edition, attribute studies).
 */
import { requireOpenProbability } from './argument-checks.ts';
import { clopperPearsonLimits, type ProportionLimits } from './clopper-pearson.ts';
import { type Computed, computed, dataProblem } from './data-problem.ts';
import { cohenKappa, fleissKappa } from './kappa.ts';

export interface AttributeRating {
  readonly unit: string;
  readonly inspector: string;
  readonly rating: string;
}

export interface AttributeAgreementOptions {
  /** The true rating of every unit. */
  readonly standard?: ReadonlyMap<string, string>;
  /** The rating that means "reject": without it there are no misses and false alarms. */
  readonly rejectRating?: string;
  /** Of the limits around each share; 0.95 unless given. */
  readonly confidence?: number;
}

/** A share with its two-sided Clopper-Pearson limits. */
interface ObservedShare extends ProportionLimits {
  readonly count: number;
  readonly of: number;
  readonly share: number;
}

interface InspectorAgreement {
  readonly inspector: string;
  /** Units that the inspector rated the same in every trial. */
  readonly consistent: ObservedShare;
  /** Fleiss' kappa between the inspector's own trials; a data problem with one trial. */
  readonly withinKappa: Computed<number>;
  readonly againstStandard?: InspectorAgainstStandard;
}

interface InspectorAgainstStandard {
  /** Effectiveness: units rated right in every trial. */
  readonly effectiveness: ObservedShare;
  /** Cohen's kappa of all trials against the standard. */
  readonly kappa: Computed<number>;
  /** Trials on units to reject that were not rejected; absent without a reject rating or such units. */
  readonly misses?: ObservedShare;
  /** Trials on units to keep that were rejected; absent without a reject rating or such units. */
  readonly falseAlarms?: ObservedShare;
}

export interface AttributeAgreement {
  readonly units: number;
  readonly trials: number;
  readonly inspectors: readonly InspectorAgreement[];
  /** Units on which all inspectors agreed in every trial. */
  readonly allAgree: ObservedShare;
  /** Fleiss' kappa over all ratings of a unit. */
  readonly betweenKappa: Computed<number>;
  /** Units that all inspectors rated right in every trial; only with a standard. */
  readonly allCorrect?: ObservedShare;
}

/**
 * Evaluates a study. Every inspector must rate every unit equally often; with a standard, it must name every unit.
 * Throws a RangeError when the confidence is out of range.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, attribute studies (the chapter from memory); limits as
 * `clopperPearsonLimits`, agreement as `cohenKappa` and `fleissKappa`.
 */
export function attributeAgreement(
  ratings: readonly AttributeRating[],
  { standard, rejectRating, confidence = 0.95 }: AttributeAgreementOptions = {},
): Computed<AttributeAgreement> {
  requireOpenProbability('confidence', confidence);
  if (ratings.length === 0) return dataProblem('too-few-values', '0 ratings, at least 1 needed');
  const units = [...new Set(ratings.map((rating) => rating.unit))];
  const inspectors = [...new Set(ratings.map((rating) => rating.inspector))];
  const byInspector = new Map(inspectors.map((name) => [name, new Map<string, string[]>()]));
  for (const { unit, inspector, rating } of ratings) {
    const own = byInspector.get(inspector)!;
    own.set(unit, [...(own.get(unit) ?? []), rating]);
  }
  const trials = byInspector.get(inspectors[0]!)!.get(units[0]!)?.length ?? 0;
  for (const inspector of inspectors)
    for (const unit of units) {
      const found = byInspector.get(inspector)!.get(unit)?.length ?? 0;
      if (found !== trials)
        return dataProblem(
          'unbalanced',
          `inspector ${inspector} rated unit ${unit} ${found} times, not ${trials} times`,
        );
    }
  const unnamed = standard && units.find((unit) => !standard.has(unit));
  if (unnamed !== undefined) return dataProblem('unbalanced', `the standard does not name unit ${unnamed}`);

  const observed = (count: number, of: number): ObservedShare => {
    const limits = clopperPearsonLimits({ count, sampleSize: of, confidence, sides: 'both' });
    return { count, of, share: count / of, ...limits };
  };
  const shareOfUnits = (holds: (unit: string) => boolean) =>
    observed(units.filter(holds).length, units.length);
  const ratingsOf = (inspector: string, unit: string) => byInspector.get(inspector)!.get(unit)!;
  const allRatingsOf = (unit: string) => inspectors.flatMap((inspector) => ratingsOf(inspector, unit));

  const compare = (inspector: string, truth: ReadonlyMap<string, string>): InspectorAgainstStandard => {
    const pairs = units.flatMap((unit) =>
      ratingsOf(inspector, unit).map((rating): readonly [string, string] => [rating, truth.get(unit)!]),
    );
    const toReject = pairs.filter(([, right]) => right === rejectRating);
    const toKeep = pairs.filter(([, right]) => right !== rejectRating);
    const missed = toReject.filter(([rating]) => rating !== rejectRating).length;
    const alarmed = toKeep.filter(([rating]) => rating === rejectRating).length;
    return {
      effectiveness: shareOfUnits((unit) =>
        ratingsOf(inspector, unit).every((rating) => rating === truth.get(unit)),
      ),
      kappa: cohenKappa(pairs),
      ...(rejectRating !== undefined && toReject.length > 0 && { misses: observed(missed, toReject.length) }),
      ...(rejectRating !== undefined &&
        toKeep.length > 0 && { falseAlarms: observed(alarmed, toKeep.length) }),
    };
  };

  return computed({
    units: units.length,
    trials,
    inspectors: inspectors.map((inspector) => ({
      inspector,
      consistent: shareOfUnits((unit) => allSame(ratingsOf(inspector, unit))),
      withinKappa: fleissKappa(units.map((unit) => ratingsOf(inspector, unit))),
      ...(standard && { againstStandard: compare(inspector, standard) }),
    })),
    allAgree: shareOfUnits((unit) => allSame(allRatingsOf(unit))),
    betweenKappa: fleissKappa(units.map(allRatingsOf)),
    ...(standard && {
      allCorrect: shareOfUnits((unit) => allRatingsOf(unit).every((rating) => rating === standard.get(unit))),
    }),
  });
}

function allSame(ratings: readonly string[]): boolean {
  return ratings.every((rating) => rating === ratings[0]);
}
