/** Limits of bacterial endotoxin (USP <85> Bacterial Endotoxins Test; USP <161> Medical Devices). */
import { requireCount, requirePositive } from './argument-checks.ts';

/**
 * The endotoxin limit of what is given by dose, K / M: the pyrogenic threshold K in EU for each kg and hour (5, or
 * 0.2 into the spine) over the largest dose M for each kg and hour, in the unit of M. Throws a RangeError.
 *
 * Source: USP <85> Bacterial Endotoxins Test, endotoxin limit K / M.
 */
export function doseEndotoxinLimit({
  threshold,
  dose,
}: {
  readonly threshold: number;
  readonly dose: number;
}): number {
  requirePositive('threshold', threshold);
  requirePositive('dose', dose);
  return threshold / dose;
}

/**
 * The limit in the extract of pooled devices, K N / V: `perDevice` EU allowed on each of `devices` devices that were
 * rinsed with `volume` altogether; EU for each unit of the volume. Throws a RangeError.
 *
 * Source: USP <161> Medical Devices, endotoxin limit K N / V.
 */
export function extractEndotoxinLimit({
  perDevice,
  devices,
  volume,
}: {
  readonly perDevice: number;
  readonly devices: number;
  readonly volume: number;
}): number {
  requirePositive('perDevice', perDevice);
  requireCount('devices', devices, 1);
  requirePositive('volume', volume);
  return (perDevice * devices) / volume;
}

/**
 * How far an extract may be diluted before the test can no longer see its limit: the limit over the sensitivity of
 * the reagent, in the same unit (maximum valid dilution). Throws a RangeError.
 *
 * Source: USP <85> Bacterial Endotoxins Test, maximum valid dilution.
 */
export function maximumValidDilution({
  limit,
  sensitivity,
}: {
  readonly limit: number;
  readonly sensitivity: number;
}): number {
  requirePositive('limit', limit);
  requirePositive('sensitivity', sensitivity);
  return limit / sensitivity;
}
