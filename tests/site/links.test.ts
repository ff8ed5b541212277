import { posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readTree } from '../support/technical-file.ts';
import { demonstrationSite, pagesIn } from './demonstration-site.ts';

const site = await demonstrationSite();
const pages = pagesIn(site);

const unescaped = (text: string): string => text.replaceAll('&#39;', "'").replaceAll('&amp;', '&');

const idsOf = (html: string): readonly string[] =>
  [...html.matchAll(/\sid="([^"]*)"/g)].map((match) => match[1] ?? '');

const ids = new Map([...pages].map(([path, html]) => [path, new Set(idsOf(html))]));

describe('the copy of the demonstration file', () => {
  test('has a page for every record, document and raw-data file', () => {
    expect([...pages.keys()].filter((path) => path.startsWith('records/')).length).toBeGreaterThan(250);
    expect([...pages.keys()].filter((path) => path.startsWith('documents/')).length).toBeGreaterThan(30);
    expect([...pages.keys()].filter((path) => path.startsWith('raw/')).length).toBeGreaterThan(30);
  });

  test('every link leads to a file of the copy, and to a place on it; nothing is loaded from elsewhere', () => {
    let followed = 0;
    const broken: string[] = [];
    for (const [path, html] of pages)
      for (const [, attribute = '', value = ''] of html.matchAll(/\s(href|src)="([^"]*)"/g)) {
        const address = unescaped(value);
        if (attribute === 'href' && /^(?:https?:|mailto:)/.test(address)) continue;
        if (attribute === 'src' && address.startsWith('data:image/svg+xml,')) continue;
        followed += 1;
        const [file = '', place] = address.split('#', 2);
        const target = file === '' ? path : posix.join(posix.dirname(path), decodeURIComponent(file));
        // `#?` is a view of a table, which the browser tests open.
        if (place?.startsWith('?') && site.has(target)) continue;
        if (!site.has(target) || (place && !ids.get(target)?.has(decodeURIComponent(place))))
          broken.push(`${path}: ${address}`);
      }
    expect(broken).toEqual([]);
    expect(followed).toBeGreaterThan(20_000);
  });

  test('no page gives an id twice', () => {
    const twice = [...pages].flatMap(([path, html]) => {
      const seen = new Set<string>();
      return idsOf(html).flatMap((id) => (seen.has(id) || !seen.add(id) ? [`${path}: ${id}`] : []));
    });
    expect(twice).toEqual([]);
  });

  test('every page has a policy that forbids scripts of its own, a title, the caution and the origin', () => {
    for (const [path, html] of pages) {
      expect(html, path).toContain(`content="default-src 'none'; script-src 'self'; style-src 'self';`);
      expect(html, path).toMatch(/<title>[^<]{3,}<\/title>/);
      expect(html, path).toContain('It does not say that the device is safe');
      expect(html, path).toContain('Content digest');
      expect(html, path).not.toMatch(/\sstyle="|<style|\son[a-z]+="|javascript:/);
      expect(
        html.match(/<script[^>]*>/g)?.every((tag) => / src="/.test(tag)),
        path,
      ).toBe(true);
    }
  });

  test('from a need to the raw numbers takes at most three clicks', () => {
    const linksOf = (path: string): readonly string[] =>
      [...(pages.get(path) ?? '').replace(/<nav[\s\S]*?<\/nav>/g, '').matchAll(/\shref="([^"#]+)/g)].map(
        (match) => posix.join(posix.dirname(path), decodeURIComponent(unescaped(match[1] ?? ''))),
      );
    const needs = [...pages.keys()].filter((path) => /^records\/UN-\d+\.html$/.test(path));
    expect(needs.length).toBe(14);
    for (const need of needs) {
      let reached = new Set([need]);
      let clicks = 0;
      while (clicks < 4 && ![...reached].some((path) => /^raw\/.*\.csv\.html$/.test(path))) {
        reached = new Set([...reached].filter((path) => pages.has(path)).flatMap(linksOf));
        clicks += 1;
      }
      expect(clicks, need).toBeLessThanOrEqual(3);
    }
  });

  test('raw data are handed on byte for byte', () => {
    const content = readTree('content');
    const copies = [...site].filter(([path]) => /^raw\/.*\.csv$/.test(path));
    expect(copies.length).toBeGreaterThan(30);
    for (const [path, bytes] of copies) expect(bytes, path).toEqual(content.get(path.slice('raw/'.length)));
  });
});
