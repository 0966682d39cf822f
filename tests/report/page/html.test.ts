import { describe, expect, it } from 'vitest';
import { escape, finished, html } from '../../../src/report/page/html.ts';
import { faults } from '../well-formed.ts';

describe('html', () => {
  it('escapes text, also in lists and attributes, and leaves finished HTML alone', () => {
    const hostile = `"><script>alert('1')</script>&`;
    const made = html`<p title="${hostile}">${[hostile, finished('<b>x</b>'), null, 3]}</p>`.html;
    expect(made).not.toContain('<script');
    expect(made).toContain('<b>x</b>3');
    expect(faults(made)).toEqual([]);
  });

  it('shows characters that HTML forbids as a box, and keeps tabs, line ends and emoji', () => {
    expect(escape('a\u0000b\u001bc\ud800d')).toBe('a\ufffdb\ufffdc\ufffdd');
    expect(escape('a\tb\n🚗é')).toBe('a\tb\n🚗é');
  });
});

describe('the reader of the tests', () => {
  it.each([
    '<p><b>x</p></b>',
    '<p>',
    '<p>a < b</p>',
    '<p>a & b</p>',
    '<p id="a"></p><p id="a"></p>',
    '<a href="#nowhere">x</a>',
    '<p class="a" class="b">x</p>',
  ])('finds what is wrong in %s', page => {
    expect(faults(page)).not.toEqual([]);
  });
});
