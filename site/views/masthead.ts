// The head of the page: the design's name, where designs come from and go to, units.
import { html, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { readDesign, saveFile, switchUnits } from '../designs';
import type { Example } from '../messages';
import { text, type Doc } from '../path';
import { Live } from './live';
import { icon } from './icon';
import { tight } from './narrow';
import './kept';
import './new';
import type { NewDesign } from './new';

/** Name, new, open, save, examples, undo, redo and units. */
export class Masthead extends Live {
  override connectedCallback(): void {
    super.connectedCallback();
    tight.addEventListener('change', this.redraw);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    tight.removeEventListener('change', this.redraw);
  }

  private readonly redraw = (): void => this.requestUpdate();

  protected override render(): TemplateResult {
    return html`
      <div class="name">
        ${icon}
        <label class="unseen" for="design-name">Name of the design</label>
        <input id="design-name" type="text" autocomplete="off" spellcheck="false" maxlength="120"
          placeholder="Name this design" .value=${live(text(this.state.doc, 'name'))}
          @input=${(e: Event) => this.state.set('name', (e.target as HTMLInputElement).value, true)}
          @blur=${() => this.state.seal()} />
      </div>
      <nav aria-label="Designs">
        <button type="button" class="quiet" @click=${this.fresh}>New</button>
        ${tight.matches ? html`<details class="rest" @focusout=${closeWhenLeft} @keydown=${closeOnEscape}><summary class="quiet">More</summary><div>${this.rest()}</div></details>` : this.rest()}
        <button type="button" class="quiet undo" ?disabled=${this.state.history.past.length === 0}
          @click=${() => this.state.undo()}>Undo</button>
        <button type="button" class="quiet redo" ?disabled=${this.state.history.future.length === 0}
          @click=${() => this.state.redo()}>Redo</button>
      </nav>
      ${this.units()}
      <springrib-new .state=${this.state}></springrib-new>`;
  }

  private rest(): TemplateResult {
    return html`
      <springrib-kept .state=${this.state}></springrib-kept>
      <button type="button" class="quiet" @click=${this.pick}>Open</button>
      <input id="design-file" type="file" accept=".json,application/json" hidden aria-label="Design file" @change=${this.openFile} />
      <button type="button" class="quiet" @click=${() => saveFile(this.state, { kind: 'save', design: this.state.doc })}>Save</button>
      ${this.examples()}`;
  }

  private examples(): TemplateResult {
    return html`
      <details class="examples" @focusout=${closeWhenLeft} @keydown=${closeOnEscape}>
        <summary class="quiet">Examples</summary>
        <ul>${(this.state.asked.controls?.examples ?? []).map((e) => html`
          <li><button type="button" class="quiet" @click=${() => this.take(e)}>
            <strong>${e.title}</strong> <span>${e.about}</span></button></li>`)}
        </ul>
      </details>`;
  }

  private units(): TemplateResult {
    const now = text(this.state.doc, 'units') || 'mm';
    return html`
      <div class="units" role="radiogroup" aria-label="Units">
        ${['mm', 'in'].map((unit) => html`
          <label><input type="radio" name="units" value=${unit} .checked=${live(unit === now)}
            @change=${() => switchUnits(this.state, unit)} /><span>${unit}</span></label>`)}
      </div>`;
  }

  private fresh(): void { void this.querySelector<NewDesign>('springrib-new')!.show(); }

  private take(example: Example): void {
    for (const d of this.querySelectorAll('details')) d.open = false;
    this.state.replace(example.design as Doc, example.title);
    this.state.introduce(`${example.about} Undo brings the former design back.`);
  }

  private pick(): void { this.querySelector<HTMLInputElement>('#design-file')!.click(); }

  private async openFile(e: Event): Promise<void> {
    const input = e.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file) await readDesign(this.state, file);
    input.value = '';
  }
}

function closeWhenLeft(e: FocusEvent): void {
  const details = e.currentTarget as HTMLDetailsElement;
  if (e.relatedTarget && !details.contains(e.relatedTarget as Node)) details.open = false;
}

function closeOnEscape(e: KeyboardEvent): void {
  if (e.key !== 'Escape') return;
  const details = e.currentTarget as HTMLDetailsElement;
  details.open = false;
  details.querySelector('summary')!.focus();
}

customElements.define('springrib-masthead', Masthead);
