import { Parser } from 'saxen';
import type { Chunks } from './record-source.ts';

/** What hears the parts of an XML document; names come without their prefix. */
export interface XmlListener {
  open(name: string, attributes: () => Attributes): void;
  close?(name: string): void;
  text?(text: string): void;
}

export type Attributes = Readonly<Record<string, string>>;

/** No text between two tags is meant to be longer. */
const longestToken = 2 ** 26;

/**
 * Reads XML a chunk at a time; yields after each, so that what the listener gathered can be taken.
 * @throws where it is not well-formed or is cut short
 */
export async function* xmlEvents(chunks: Chunks, listener: XmlListener): AsyncGenerator<void, void, undefined> {
  let silent = 0;
  const parser = parserFor(listener, () => (silent = 0));
  let decoder: TextDecoder | null = null;
  for await (const chunk of chunks) {
    decoder ??= new TextDecoder(encodingOf(chunk));
    silent += chunk.length;
    parser.write(decoder.decode(chunk, { stream: true }));
    if (silent > longestToken) throw new Error('a text inside it has no end');
    yield;
  }
  parser.end();
  yield;
}

/** Reads a small XML document in one go. */
export async function readXml(chunks: Chunks, listener: XmlListener): Promise<void> {
  const events = xmlEvents(chunks, listener);
  while (!(await events.next()).done);
}

function parserFor(listener: XmlListener, heard: () => void): Parser {
  const parser = new Parser();
  parser.on('openTag', (name, attributes, decode) => {
    heard();
    listener.open(localName(name), () => decoded(attributes(), decode));
  });
  if (listener.close) parser.on('closeTag', (name) => listener.close?.(localName(name)));
  if (listener.text) {
    parser.on('text', (text, decode) => listener.text?.(text.includes('&') ? decode(text) : text));
    parser.on('cdata', (text) => listener.text?.(text));
  }
  parser.on('error', (error) => {
    throw error;
  });
  return parser;
}

function decoded(attributes: Record<string, string>, decode: (text: string) => string): Attributes {
  for (const name in attributes) {
    const value = attributes[name]!;
    if (value.includes('&')) attributes[name] = decode(value);
    const colon = name.indexOf(':');
    if (colon > 0) attributes[name.slice(colon + 1)] ??= attributes[name]!;
  }
  return attributes;
}

const localName = (name: string): string => {
  const colon = name.indexOf(':');
  return colon < 0 ? name : name.slice(colon + 1);
};

function encodingOf([first, second]: Uint8Array): string {
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  return first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
}
