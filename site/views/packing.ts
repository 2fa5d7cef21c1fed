// The means to lay the parts closer, over the drawings of the sheets.
import { html, nothing, type TemplateResult } from 'lit';
import { startPackCore } from '../load';
import { Packer, type PackCore } from '../pack';
import { get } from '../path';
import { Live } from './live';

/** Buttons, how far packing is, and what it came to. */
export class Packing extends Live {
  /** What packs; a test puts something else here. */
  static core: () => PackCore = startPackCore;
  private packer: Packer | undefined;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.packer?.stop();
  }

  protected override render(): TemplateResult {
    const packer = this.packer ??= new Packer(this.state, Packing.core, () => this.requestUpdate());
    const places = get(this.state.doc, 'cut.places');
    const packed = Array.isArray(places) && places.length > 0;
    return html`<div class="packing">
      ${packer.busy
        ? html`<button type="button" @click=${() => packer.stop()}>Stop</button>
          <progress max="1" .value=${packer.done ?? 0} aria-label="Packing"></progress>`
        : html`<button type="button" @click=${() => void packer.run()}>Pack closer</button>`}
      ${packed && !packer.busy ? html`<button type="button" class="quiet" @click=${() => packer.rows()}>Lay in rows again</button>` : nothing}
      <span role="status">${packer.news}</span></div>`;
  }
}

customElements.define('springrib-packing', Packing);
