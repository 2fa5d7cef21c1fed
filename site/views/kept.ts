// The designs that this browser keeps: open, rename, delete; and the present one as a link.
import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { linkTo } from '../brought';
import { saveFile, saveJob, type Share } from '../designs';
import type { Entry } from '../store';
import { Live } from './live';

/** Above this many letters, programs for mail and chat begin to cut links. */
const longLink = 8000;

/** The button that opens the list of designs, and the list. */
export class KeptDesigns extends Live {
  private open = false;
  /** The design whose name is being written. */
  private naming: string | undefined;
  /** What came of the last press. */
  private said = '';
  /** The link, where it could not be copied for the person. */
  private link = '';
  /** How many of each design are cut together, by its id. */
  private readonly many = new Map<string, number>();
  private cutting = false;

  protected override render(): TemplateResult {
    return html`
      <button type="button" class="quiet" aria-haspopup="dialog" @click=${this.show}>Designs</button>
      <dialog class="kept" aria-labelledby="kept-title" @close=${this.closed} @click=${this.outside}>
        ${this.open ? this.list() : nothing}
      </dialog>`;
  }

  private list(): TemplateResult {
    const { state } = this;
    const designs = state.kept.designs(), removed = state.kept.removed();
    return html`
      <div class="kept-head"><h2 id="kept-title">Your designs</h2>
        <button type="button" class="quiet" @click=${this.close}>Close</button></div>
      ${designs.length ? html`<ul>${repeat(designs, (d) => d.id, (d) => this.row(d))}</ul>`
        : html`<p class="empty">Nothing is kept yet. Your first change to a design keeps it.</p>`}
      ${designs.length > 1 ? this.together(designs) : nothing}
      ${removed ? html`<p class="removed">Deleted last: ${called(removed)}
        <button type="button" class="quiet" @click=${this.bringBack}>Bring it back</button></p>` : nothing}
      <div class="kept-take"><h3>The one on the page</h3>
        <button type="button" class="secondary" @click=${this.copy}>Copy link</button>
        <button type="button" class="secondary" @click=${() => saveFile(state, { kind: 'save', design: state.doc })}>Save to a file</button></div>
      ${this.link ? html`<label class="kept-link">Copy this link by hand
        <input type="text" readonly .value=${this.link} @focus=${(e: Event) => (e.target as HTMLInputElement).select()} /></label>` : nothing}
      <p class="told" role="status">${this.said}</p>
      <p class="small">They are kept in this browser on this machine, nowhere else. A file or a link goes anywhere.</p>`;
  }

  private row(d: Entry): TemplateResult {
    const here = d.id === this.state.kept.id;
    if (this.naming === d.id) {
      return html`<li><form @submit=${(e: Event) => this.rename(e, d)}>
        <label class="unseen" for="new-name">New name of ${called(d)}</label>
        <input id="new-name" type="text" autocomplete="off" maxlength="120" .value=${d.name} @keydown=${this.escape} />
        <button type="submit" class="secondary">Rename</button></form></li>`;
    }
    return html`<li aria-current=${here ? 'true' : nothing}>
      <button type="button" class="quiet open" @click=${() => this.take(d)}><strong>${called(d)}</strong>
        <span>${here ? 'on the page now' : when(d.at)}</span></button>
      <label class="many"><span class="unseen">${called(d)}: how many to cut together</span>
        <input type="number" inputmode="numeric" min="0" max="999" placeholder="0" .value=${String(this.many.get(d.id) ?? '')} @input=${(e: Event) => this.count(e, d)} /></label>
      <button type="button" class="quiet" aria-label="Rename ${called(d)}" @click=${() => this.name(d)}>Rename</button>
      <button type="button" class="quiet" aria-label="Delete ${called(d)}" @click=${() => this.discard(d)}>Delete</button></li>`;
  }

  // Designs of one machine share sheets: so many of each, in one file.
  private together(designs: Entry[]): TemplateResult {
    const n = designs.filter((d) => this.many.has(d.id)).length;
    return html`<div class="kept-take"><h3>Cut together</h3>
      <p class="small">Put a number beside each design that you want. What is of one sheet is laid together, with a parts list and a map of each sheet.</p>
      <button type="button" class="secondary" ?disabled=${n === 0 || this.cutting} @click=${() => this.cut(designs)}>
        ${this.cutting ? 'Laying them out…' : n === 0 ? 'Take them to the bench' : n === 1 ? 'Take 1 design to the bench' : `Take ${n} designs to the bench`}</button></div>`;
  }

  private count(e: Event, d: Entry): void {
    const n = Math.min(999, Math.floor(Number((e.target as HTMLInputElement).value)));
    if (n > 0) this.many.set(d.id, n);
    else this.many.delete(d.id);
    this.requestUpdate();
  }

  private async cut(designs: Entry[]): Promise<void> {
    const members: Share[] = [];
    for (const d of designs) {
      const quantity = this.many.get(d.id), design = this.state.kept.document(d.id);
      if (quantity && design) members.push({ quantity, design });
    }
    this.cutting = true;
    this.said = '';
    this.requestUpdate();
    const said = await saveJob(this.state, '', members);
    this.cutting = false;
    this.said = said ? ['Everything is in one file.', ...said].join(' ') : 'Nothing was made. Look at what the page says.';
    this.requestUpdate();
  }

  private dialog(): HTMLDialogElement { return this.querySelector('dialog')!; }

  private show(): void {
    this.state.kept.keep();
    this.open = true;
    this.naming = undefined;
    this.said = this.link = '';
    this.requestUpdate();
    void this.updateComplete.then(() => this.dialog().showModal());
  }

  private close(): void { this.dialog().close(); }

  private closed(): void {
    this.open = false;
    this.requestUpdate();
  }

  // A press beside the list closes it.
  private outside(e: Event): void {
    if (e.target === this.dialog()) this.close();
  }

  private take(d: Entry): void {
    this.state.kept.open(d.id);
    this.close();
  }

  private name(d: Entry): void {
    this.naming = d.id;
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLInputElement>('#new-name')!.select());
  }

  private rename(e: Event, d: Entry): void {
    e.preventDefault();
    this.state.kept.rename(d.id, this.querySelector<HTMLInputElement>('#new-name')!.value.trim());
    this.unname();
  }

  private escape(e: KeyboardEvent): void {
    if (e.key !== 'Escape') return;
    e.preventDefault(); // the list stays open
    this.unname();
  }

  private unname(): void {
    const id = this.naming;
    this.naming = undefined;
    this.requestUpdate();
    const at = this.state.kept.designs().findIndex((d) => d.id === id);
    void this.updateComplete.then(() => this.querySelectorAll<HTMLElement>('dialog li .open')[at]?.focus());
  }

  private discard(d: Entry): void {
    this.state.kept.remove(d.id);
    this.said = '';
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('.removed button')?.focus());
  }

  private bringBack(): void {
    this.state.kept.restore();
    this.close();
  }

  private async copy(): Promise<void> {
    const link = await linkTo(this.state, location.href);
    this.link = '';
    try {
      await navigator.clipboard.writeText(link);
      this.said = told(link);
    } catch {
      this.link = link;
      this.said = `This browser doesn’t let the page copy. ${told(link)}`.replace('Copied. ', '');
    }
    this.requestUpdate();
  }
}

const called = (d: Entry): string => d.name || 'Without a name';

const when = (at: number): string =>
  `kept ${new Date(at).toLocaleString(undefined, { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' })}`;

/** What there is to know of a link. */
export function told(link: string): string {
  const out = ['Copied. The whole design is in the link: whoever has it can open it.'];
  if (link.startsWith('file:')) out.push('This page lies on your disk, so the link works on this machine; elsewhere, put what follows “#” behind the address of another copy of the page.');
  if (link.length > longLink) out.push(`It has ${link.length} letters, and some programs cut long links: a file is safer.`);
  return out.join(' ');
}

customElements.define('springrib-kept', KeptDesigns);
