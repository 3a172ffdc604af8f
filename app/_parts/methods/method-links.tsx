import { methodsNamed } from '../../../shared/methods/index.ts';
import { MethodsLink } from './methods-link.tsx';

/** Where what a finding calls its method is explained. */
export function MethodLinks({ told }: { told: string }) {
  return methodsNamed(told).map(({ id, name }) => (
    <span key={id} className="method-link">
      <MethodsLink anchor={id}>{name}</MethodsLink>{' '}
    </span>
  ));
}
