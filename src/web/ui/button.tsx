import type { ButtonHTMLAttributes, ComponentChildren, TargetedMouseEvent } from 'preact';

type Props = {
  children: ComponentChildren;
  kind?: 'main' | 'plain' | 'quiet' | 'danger';
  busy?: boolean;
} & Pick<ButtonHTMLAttributes, 'type' | 'disabled' | 'aria-label' | 'aria-pressed' | 'aria-expanded' | 'title'> & {
    onClick?: (event: TargetedMouseEvent<HTMLButtonElement>) => void;
  };

/** A button; while what it began still runs it says so and takes no second tap, and it keeps the focus. */
export function Button({ children, kind = 'plain', busy = false, type = 'button', onClick, ...rest }: Props) {
  return (
    <button
      {...rest}
      type={type}
      class={`button button-${kind}`}
      aria-busy={busy}
      aria-disabled={busy || undefined}
      onClick={(event) => (busy ? event.preventDefault() : onClick?.(event))}
    >
      {children}
    </button>
  );
}
