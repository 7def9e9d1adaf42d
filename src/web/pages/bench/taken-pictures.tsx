import { useEffect, useState } from 'preact/hooks';
import { Button } from '../../ui/button.tsx';
import { PictureInput } from '../../ui/photos/picture-input.tsx';
import { useWords } from '../../words/words.ts';

interface Props {
  taken: readonly File[];
  setTaken: (taken: readonly File[]) => void;
  showsPerson: boolean;
  setPerson: (shows: boolean) => void;
}

/** Pictures of what went wrong, before it is noted: they go with it. */
export function TakenPictures({ taken, setTaken, showsPerson, setPerson }: Props) {
  const { say } = useWords();
  return (
    <fieldset class="bench-pictures">
      <legend>{say('bench.wrongPicture')}</legend>
      <PictureInput onPictures={(files) => setTaken([...taken, ...files])} />
      {taken.length > 0 && (
        <>
          <ul class="plain-list photos">
            {taken.map((file, index) => (
              <li key={index} class="photo">
                <Shown file={file} alt={say('bench.wrongPictureAlt', { number: index + 1 })} />
                <Button
                  aria-label={say('bench.wrongPictureDropOf', { number: index + 1 })}
                  onClick={() => setTaken(taken.filter((_, at) => at !== index))}
                >
                  {say('bench.wrongPictureDrop')}
                </Button>
              </li>
            ))}
          </ul>
          <Button aria-pressed={showsPerson} onClick={() => setPerson(!showsPerson)}>
            {showsPerson ? '✓ ' : ''}
            {say('photos.person')}
          </Button>
        </>
      )}
    </fieldset>
  );
}

function Shown({ file, alt }: { file: File; alt: string }) {
  const [url, setUrl] = useState<string>();
  useEffect(() => {
    const made = URL.createObjectURL(file);
    setUrl(made);
    return () => URL.revokeObjectURL(made);
  }, [file]);
  return url === undefined ? null : <img src={url} alt={alt} />;
}
