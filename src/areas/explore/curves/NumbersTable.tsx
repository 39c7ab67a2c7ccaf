import { memo, useEffect, useMemo, useRef, useState } from 'react';
import { Button } from '../../../app/ui/controls.tsx';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import type { ShownMesh } from '../../../state/mesh.ts';
import { useText } from '../../../text/useText.ts';
import styles from './curves.module.css';
import { numberRows, rowsAsCsv, rowsAsText } from './numberRows.ts';

/** All numbers of the pose that is shown, to read and to take away. */
export const NumbersTable = memo(function NumbersTable({ shown }: { readonly shown: ShownMesh }) {
  const t = useText();
  const lengths = useLengths();
  const [said, setSaid] = useState('');
  const [uncopied, setUncopied] = useState<string | null>(null);
  const rows = useMemo(() => numberRows(shown.result, shown.loaded, lengths, t), [shown, lengths, t]);
  const flanks = FLANK_ORDER.map((flank) => t(`flank.name.${flank}`));
  const quantity = t('curves.numbers.quantity');

  const copy = async (text: string) => {
    setUncopied(null);
    setSaid('');
    try {
      await navigator.clipboard.writeText(text);
      setSaid(t('curves.numbers.copied'));
    } catch {
      setUncopied(text);
      setSaid(t('curves.numbers.notCopied'));
    }
  };

  return (
    <div className={styles.numbers}>
      <div className={styles.copies}>
        <Button onPress={() => void copy(rowsAsText(rows, [quantity, ...flanks]))}>
          {t('curves.numbers.copyText')}
        </Button>
        <Button onPress={() => void copy(rowsAsCsv(rows, [quantity, t('curves.numbers.unit'), ...flanks]))}>
          {t('curves.numbers.copyCsv')}
        </Button>
        <p role="status">{said}</p>
      </div>
      {uncopied !== null && <SelectedText text={uncopied} />}
      <table className={`${styles.table} numbers`}>
        <thead>
          <tr>
            <th scope="col">{quantity}</th>
            {flanks.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, texts }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {texts.map((text, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: the first is drive, the second coast
                <td key={index} colSpan={texts.length === 1 ? 2 : 1}>
                  {text}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
});

/** Where the clipboard is closed to the page, the person copies by hand. */
function SelectedText({ text }: { readonly text: string }) {
  const t = useText();
  const field = useRef<HTMLTextAreaElement>(null);
  useEffect(() => {
    field.current?.focus();
    field.current?.select();
  }, []);
  return (
    <textarea
      ref={field}
      className={styles.uncopied}
      aria-label={t('curves.numbers.field')}
      readOnly
      rows={6}
      value={text}
    />
  );
}
