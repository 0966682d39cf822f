/// <reference lib="dom" />
/** Pictures as SVG and PNG, their numbers as CSV: written by the page itself, nothing is asked for. */

const WAYS = ['SVG', 'PNG', 'CSV'] as const;

/** Pixels of a saved picture for one of the page: sharp on paper too. */
const SHARP = 3;

/** Puts buttons below every picture, also those that come later. */
export function offerSaving(): void {
  const offer = (): void => {
    for (const picture of document.querySelectorAll<HTMLElement>('.picture:not(:has(> .saves))')) {
      const row = document.createElement('p');
      row.className = 'saves';
      for (const way of WAYS) {
        if (way === 'CSV' && picture.querySelector('.numbers table') === null) continue;
        const button = document.createElement('button');
        button.type = 'button';
        button.textContent = way;
        button.setAttribute('aria-label', `Save as ${way}: ${titleOf(picture)}`);
        row.append(button);
      }
      picture.querySelector('figcaption')?.after(row);
    }
  };
  offer();
  new MutationObserver(offer).observe(document.body, { childList: true, subtree: true });
  document.addEventListener('click', ({ target }) => {
    if (!(target instanceof HTMLButtonElement) || target.parentElement?.className !== 'saves') return;
    const picture = target.closest<HTMLElement>('.picture');
    if (picture !== null) void save(picture, target.textContent ?? '');
  });
}

function titleOf(picture: Element): string {
  return picture.querySelector('[role=img]')?.getAttribute('aria-label') ?? 'picture';
}

async function save(picture: HTMLElement, way: string): Promise<void> {
  const cell = picture.closest('section.cell')?.getAttribute('data-name') ?? '';
  const name = `${cell} ${titleOf(picture)}`
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/gu, '');
  if (way === 'CSV') return hand(new Blob([csvOf(picture)], { type: 'text/csv' }), `${name}.csv`);
  const svg = shownIn(picture);
  if (svg === null) return;
  const text = svgText(svg, titleOf(picture));
  if (way === 'SVG') return hand(new Blob([text], { type: 'image/svg+xml' }), `${name}.svg`);
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = SHARP * svg.width.baseVal.value;
  canvas.height = SHARP * svg.height.baseVal.value;
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
  canvas.toBlob(found => found !== null && hand(found, `${name}.png`), 'image/png');
}

/** The drawing that is seen; the wide one where none is. */
export function shownIn(picture: Element): SVGSVGElement | null {
  const all = [...picture.querySelectorAll<SVGSVGElement>('[role=img] > svg')];
  return all.find(svg => svg.getClientRects().length > 0) ?? all[0] ?? null;
}

function svgText(svg: SVGSVGElement, title: string): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  copy.removeAttribute('aria-hidden');
  copy.removeAttribute('data-traces');
  const told = document.createElementNS('http://www.w3.org/2000/svg', 'title');
  told.textContent = title;
  copy.prepend(told);
  return new XMLSerializer().serializeToString(copy);
}

/** RFC 4180; minus signs and blanks as programs read them. */
function csvOf(picture: Element): string {
  const rows = [...picture.querySelectorAll<HTMLTableRowElement>('.numbers tr')];
  return rows
    .map(row =>
      [...row.cells]
        .map(cell => {
          const text = (cell.textContent ?? '')
            .replaceAll('\u2212', '-')
            .replace(/[\u00a0\u202f]/gu, ' ')
            .replace(/^\u2013$/u, '');
          return /[",\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
        })
        .join(','),
    )
    .join('\r\n')
    .concat('\r\n');
}

function hand(file: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
