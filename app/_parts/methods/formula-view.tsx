import { createElement, type ReactNode } from 'react';
import type { Formula, FormulaPart } from '../../../shared/methods/formula.ts';

const tokens = /[A-Za-z]{2,}|\p{L}[\p{M}\p{Lm}\u2080-\u209c]*|\d+(?:\.\d+)?|\s+|./gu;
const named: ReadonlySet<string> = new Set(['exp', 'log', 'min', 'max', 'var']);
const element = (name: string, ...children: ReactNode[]) => createElement(name, null, ...children);

function tokenView(token: string): ReactNode {
  if (/^\s+$/.test(token)) return createElement('mspace', { width: '0.14em' });
  if (named.has(token)) return element('mi', token);
  if (/^[A-Za-z]{2,}$/.test(token)) return element('mtext', token);
  if (/^\p{L}/u.test(token)) return letterView(token);
  return element(/^\d/.test(token) ? 'mn' : 'mo', token);
}

/** Small letters and digits that stand beneath, as the sentences around write them, and what they are in a formula. */
const smallOnes = Array.from('₀₁₂₃₄₅₆₇₈₉ᵢⱼₖₛ₍₎');
const beneath = new Map(smallOnes.map((small, at) => [small, '0123456789ijks()'.charAt(at)]));

function letterView(token: string): ReactNode {
  const small = Array.from(token).filter((letter) => beneath.has(letter));
  if (small.length === 0) return element('mi', token);
  const letter = Array.from(token)
    .filter((one) => !beneath.has(one))
    .join('');
  return element('msub', element('mi', letter), element('mi', small.map((one) => beneath.get(one)).join('')));
}

const textView = (text: string): ReactNode =>
  element('mrow', ...Array.from(text.matchAll(tokens), ([one]) => tokenView(one)));

function partView(part: FormulaPart): ReactNode {
  if (typeof part === 'string') return textView(part);
  if ('top' in part) return element('mfrac', rowView(part.top), rowView(part.bottom));
  if ('base' in part) return scriptView(part);
  const sign = createElement('mo', { largeop: 'true' }, part.sign);
  if (part.to !== undefined) return element('munderover', sign, textView(part.from), textView(part.to));
  return element('munder', sign, textView(part.from));
}

function scriptView({ base, sub, sup }: Extract<FormulaPart, { base: string }>): ReactNode {
  if (sub !== undefined && sup !== undefined) return element('msubsup', textView(base), textView(sub), textView(sup));
  if (sub !== undefined) return element('msub', textView(base), textView(sub));
  return element('msup', textView(base), textView(sup ?? ''));
}

const rowView = (formula: Formula): ReactNode => element('mrow', ...formula.map(partView));

/** A formula as MathML, which browsers set and read out by themselves. */
export const FormulaView = ({ formula }: { formula: Formula }) =>
  createElement('math', { display: 'block', className: 'formula' }, rowView(formula));
