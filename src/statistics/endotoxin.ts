/**
 * Limits of bacterial endotoxin (USP <85> Bacterial Endotoxins Test; USP <161> Medical Devices).
 *
 * Sources: USP <85> and <161>; limit per device and dilution as in ANSI/AAMI ST72 (from memory).
 */
import { requireCount, requirePositive } from './argument-checks.ts';

/**
 * The endotoxin limit of what is given by dose, K / M: the pyrogenic threshold K in EU for each kg and hour (5, or 0.2
 * into the spine) over the largest dose M for each kg and hour, in the unit of M (USP <85>). Throws a RangeError.
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
 * rinsed with `volume` altogether; EU for each unit of the volume (USP <161>). Throws a RangeError.
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
 * How far an extract may be diluted before the test can no longer see its limit: the limit over the sensitivity of the
 * reagent, in the same unit (maximum valid dilution, USP <85>). Throws a RangeError.
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
