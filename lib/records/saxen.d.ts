/** The part of saxen that is used; the package has no types of its own. */
declare module 'saxen' {
  export class Parser {
    on(
      event: 'openTag',
      heard: (name: string, attributes: () => Record<string, string>, decode: (text: string) => string) => void,
    ): this;
    on(event: 'closeTag', heard: (name: string) => void): this;
    on(event: 'text', heard: (text: string, decode: (text: string) => string) => void): this;
    on(event: 'cdata', heard: (text: string) => void): this;
    on(event: 'error', heard: (error: Error) => void): this;
    write(xml: string): this;
    end(): unknown;
  }
}
