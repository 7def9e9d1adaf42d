import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { useWords } from '../words/words.ts';

/** Everything by one box: a part of a name, a title or a number. */
export function SearchBox() {
  const { say } = useWords();
  const { route } = useLocation();
  const [text, setText] = useState('');
  const submit = (event: Event) => {
    event.preventDefault();
    if (text.trim().length >= 3) route(`/search?text=${encodeURIComponent(text.trim())}`);
  };
  return (
    <form class="search-box" role="search" onSubmit={submit}>
      <input
        type="search"
        enterkeyhint="search"
        aria-label={say('shell.search')}
        placeholder={say('shell.search')}
        value={text}
        minLength={3}
        maxLength={100}
        onInput={(event) => setText(event.currentTarget.value)}
      />
    </form>
  );
}
