import ruleData from './classification-rules.json' with { type: 'json' };
import routeData from './conformity-routes.json' with { type: 'json' };

/** Risk classes of the European Union, the lowest first. */
export const deviceClasses = ['I', 'IIa', 'IIb', 'III'] as const;
export type DeviceClass = (typeof deviceClasses)[number];

/** Place of a class among the classes: the higher, the stricter. */
export const classRank = (deviceClass: DeviceClass): number => deviceClasses.indexOf(deviceClass);

export interface ClassificationRule {
  readonly rule: number;
  /** Section of Annex VIII. */
  readonly section: string;
  /** In our own words. */
  readonly title: string;
  /** Classes that the rule can give. */
  readonly classes: readonly DeviceClass[];
}

/** The rules of Annex VIII chapter III, by their numbers. */
export const classificationRules: ReadonlyMap<number, ClassificationRule> = new Map(
  (ruleData.rules as readonly ClassificationRule[]).map((rule) => [rule.rule, rule]),
);

/**
 * Term of use by Annex VIII 1: transient below 60 minutes, short term from there to 30 days, long term above.
 *
 * @param minutes longest continuous use
 */
export const termOfUse = (minutes: number): 'transient' | 'short term' | 'long term' =>
  minutes < 60 ? 'transient' : minutes <= 30 * 24 * 60 ? 'short term' : 'long term';

export interface ConformityRoute {
  readonly class: DeviceClass;
  /** Of class I only: whether it is for devices that are sterile, measure, or are reusable surgical instruments. */
  readonly features?: boolean;
  /** Paragraph of Article 52. */
  readonly article: string;
  readonly procedures: readonly string[];
  readonly notified_body: 'none' | 'limited' | 'full';
}

/** What Article 52 offers a device of a class. */
export const conformityRoute = (
  deviceClass: DeviceClass,
  hasFeatures: boolean,
): ConformityRoute | undefined =>
  (routeData.routes as readonly ConformityRoute[]).find(
    (route) =>
      route.class === deviceClass && (deviceClass !== 'I' || (route.features ?? false) === hasFeatures),
  );
