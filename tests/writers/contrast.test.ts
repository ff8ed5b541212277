import { expect, test } from 'vitest';
import { colours, toneColours } from '../../src/writers/docx/look.ts';
import { styleSheet } from '../../src/writers/html/style-sheet.ts';

/** Contrast ratio by WCAG 2.2, definitions "relative luminance" and "contrast ratio". */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const full = hex.length === 3 ? [...hex].map((digit) => digit + digit).join('') : hex;
    const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => {
      const value = Number.parseInt(full.slice(at, at + 2), 16) / 255;
      return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

// Worked values from WCAG 2.2, "Understanding 1.4.3": black on white 21; #767676 on white is the lightest grey that passes.
test('the formula agrees with the published examples', () => {
  expect(contrast('000000', 'ffffff')).toBeCloseTo(21, 10);
  expect(contrast('767676', 'ffffff')).toBeGreaterThanOrEqual(4.5);
  expect(contrast('777777', 'ffffff')).toBeLessThan(4.5);
});

test('Word: every text colour on every ground it can stand on', () => {
  const grounds = [colours.paper, colours.bandFill];
  for (const { text, fill } of Object.values(toneColours)) {
    for (const ground of [...grounds, fill]) expect(contrast(text, ground)).toBeGreaterThanOrEqual(4.5);
  }
  for (const text of [colours.ink, colours.heading, colours.accent, colours.quiet]) {
    for (const ground of [...grounds, colours.headFill])
      expect(contrast(text, ground)).toBeGreaterThanOrEqual(4.5);
  }
});

test('HTML: light, dark and print', () => {
  const palettes = [...styleSheet.matchAll(/:root\{([^}]*)\}/g)].map(
    ([, rules = '']) =>
      new Map([...rules.matchAll(/--([\w-]+):#([0-9a-f]+)/g)].map(([, name, value]) => [name, value ?? ''])),
  );
  expect(palettes.length).toBe(3);
  for (const palette of palettes) {
    const at = (name: string) => palette.get(name) ?? '';
    for (const text of ['ink', 'heading', 'accent', 'quiet', 'good', 'bad', 'caution']) {
      for (const ground of ['paper', 'band'])
        expect(contrast(at(text), at(ground))).toBeGreaterThanOrEqual(4.5);
    }
    for (const tone of ['good', 'bad', 'caution', 'quiet']) {
      expect(contrast(at(tone), at(`${tone}-fill`))).toBeGreaterThanOrEqual(4.5);
      expect(contrast(at('ink'), at(`${tone}-fill`))).toBeGreaterThanOrEqual(4.5);
    }
    expect(contrast(at('heading'), at('head'))).toBeGreaterThanOrEqual(4.5);
  }
});
