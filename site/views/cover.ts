// What sticks to the edges of the window covers what is scrolled under it. The page's
// scroll padding follows it, so that whatever gets the keyboard comes into the open.

/** A little air between what is focused and what sticks, px: the focus ring fits in. */
const air = 8;

/** Watches the elements that stick while it runs. */
export class Cover {
  private readonly sizes = new ResizeObserver(() => this.measure());
  private top: readonly HTMLElement[] = [];
  private bottom: readonly HTMLElement[] = [];

  /** Takes what sticks to the top and to the bottom. */
  watch(top: readonly (HTMLElement | null)[], bottom: readonly (HTMLElement | null)[]): void {
    const here = (e: HTMLElement | null): e is HTMLElement => e !== null;
    [this.top, this.bottom] = [top.filter(here), bottom.filter(here)];
    for (const e of [...this.top, ...this.bottom]) this.sizes.observe(e);
    window.addEventListener('resize', this.measure);
    // What is observed is measured in the first frame: to measure it now would lay the page out twice.
  }

  stop(): void {
    this.sizes.disconnect();
    window.removeEventListener('resize', this.measure);
  }

  private readonly measure = (): void => {
    const page = document.documentElement.style;
    // What sticks last stands at the very bottom, and the others on it.
    page.setProperty('--notice', `${this.bottom.at(-1)?.offsetHeight ?? 0}px`);
    const under = Math.max(0, ...this.bottom.map((e) => reach(e, 'bottom')));
    page.scrollPaddingTop = `${Math.max(0, ...this.top.map((e) => reach(e, 'top'))) + air}px`;
    page.scrollPaddingBottom = `${under + air}px`;
    page.setProperty('--under', `${under}px`); // for what scrolls by itself
  };
}

// How far into the window an element reaches while it sticks; not at all if it never does.
function reach(e: HTMLElement, edge: 'top' | 'bottom'): number {
  const style = getComputedStyle(e);
  return style.position === 'sticky' ? e.offsetHeight + (parseFloat(style[edge]) || 0) : 0;
}
