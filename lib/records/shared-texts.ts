import type { Chunks } from './record-source.ts';
import { xmlEvents, type XmlListener } from './xml-events.ts';

/** Characters of shared texts that are kept in memory at most. */
const mostCharacters = 2 ** 29;

/** Characters that XML cannot hold are written `_x000D_`, ECMA-376 part 1, 22.9.2.19. */
export const unescaped = (text: string): string =>
  text.includes('_x')
    ? text.replaceAll(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)))
    : text;

/** Gathers the text of a cell or shared item, whatever runs it is cut into; how it is pronounced is left out. */
export class RunText {
  text = '';
  #inText = false;
  #spoken = 0;

  begin(): void {
    this.text = '';
    this.#inText = false;
    this.#spoken = 0;
  }

  open(name: string): void {
    if (name === 't') this.#inText = true;
    else if (name === 'rPh') this.#spoken++;
  }

  close(name: string): void {
    if (name === 't') this.#inText = false;
    else if (name === 'rPh') this.#spoken--;
  }

  add(text: string): void {
    if (this.#inText && this.#spoken === 0) this.text += text;
  }
}

/** The texts that cells point to by their place. @throws where they are too many to be kept */
export async function readSharedTexts(stream: Chunks | null): Promise<readonly string[]> {
  const texts: string[] = [];
  if (!stream) return texts;
  const run = new RunText();
  let characters = 0;
  const listener: XmlListener = {
    open(name) {
      if (name === 'si') run.begin();
      else run.open(name);
    },
    close(name) {
      run.close(name);
      if (name !== 'si') return;
      texts.push(unescaped(run.text));
      characters += run.text.length;
    },
    text(text) {
      run.add(text);
    },
  };
  for await (const _ of xmlEvents(stream, listener)) {
    if (characters > mostCharacters) throw new Error(`its texts are longer than ${mostCharacters} characters`);
  }
  return texts;
}
