import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { projectRoot } from '../support/technical-file.ts';

const styleSheet = readFileSync(join(projectRoot, 'src/site/site.css'), 'utf8');

/** Contrast ratio by WCAG 2.2, definitions "relative luminance" and "contrast ratio". */
const contrast = (a: string, b: string): number => {
  const luminance = (hex: string): number => {
    const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => {
      const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
      return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
};

const palettes = [...styleSheet.matchAll(/\{\s*color-scheme: (?:light|dark);([^}]*)\}/g)].map(
  ([, rules = '']) =>
    new Map(
      [...rules.matchAll(/--([\w-]+): #([0-9a-f]{6});/g)].map(([, name, value]) => [name, value ?? '']),
    ),
);

test('there are four palettes: light, dark by choice, dark by the system, print', () => {
  expect(palettes.length).toBe(4);
  expect([...(palettes[1] ?? [])]).toEqual([...(palettes[2] ?? [])]);
});

test.each([0, 1, 2, 3])('palette %i: every text colour on every ground it can stand on', (index) => {
  const palette = palettes[index] ?? new Map<string, string>();
  const at = (name: string): string => {
    const colour = palette.get(name) ?? (name.startsWith('top') ? palettes[0]?.get(name) : undefined);
    expect(colour, name).toBeDefined();
    return colour ?? '';
  };
  for (const text of ['ink', 'heading', 'accent', 'quiet', 'good', 'bad', 'caution'])
    for (const ground of [
      'paper',
      'ground',
      'band',
      'quiet-fill',
      'head',
      'bad-fill',
      'caution-fill',
      'good-fill',
    ])
      expect(contrast(at(text), at(ground)), `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
  expect(contrast(at('top-ink'), at('top'))).toBeGreaterThanOrEqual(4.5);
  // Shapes and frames of controls: 3 (WCAG 2.2, 1.4.11).
  for (const shape of ['good', 'bad', 'caution', 'quiet', 'accent'])
    expect(contrast(at(shape), at('paper'))).toBeGreaterThanOrEqual(3);
});
