import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/**
 * The one button of the bench: it holds the focus, so that a foot-pedal that sends Enter or Space presses it. A key that is held down
 * presses it once.
 */
export function MainButton({
  children,
  disabled = false,
  onPress,
}: {
  children: ComponentChildren;
  disabled?: boolean;
  onPress: () => void;
}) {
  const button = useRef<HTMLButtonElement>(null);
  const isNew = useRef(true);
  useEffect(() => {
    const { activeElement } = document;
    // Somebody who is typing or has gone elsewhere by keyboard is left there, and so is what they read.
    if (activeElement === null || activeElement === document.body || activeElement.id === 'page')
      button.current?.focus({ preventScroll: !isNew.current });
    isNew.current = false;
  });
  return (
    <button
      ref={button}
      type="button"
      class="button button-main bench-main"
      disabled={disabled}
      // The second half of a double tap is no press of its own.
      onClick={({ detail }) => detail < 2 && onPress()}
      onKeyDown={(event) => {
        if (event.repeat) event.preventDefault();
      }}
    >
      {children}
    </button>
  );
}
