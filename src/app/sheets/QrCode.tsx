import encodeQR from 'qr';
import { useMemo } from 'react';
import styles from './share.module.css';

/** Modules of quiet border that ISO/IEC 18004 asks for. */
const BORDER = 4;

/** A link as a QR code, dark on light in both themes: not every camera reads the inverse. */
export function QrCode({ link, label }: { readonly link: string; readonly label: string }) {
  const { size, path } = useMemo(() => {
    const rows = encodeQR(link, 'raw', { ecc: 'medium', border: BORDER });
    const dark = rows.flatMap((row, y) => row.map((set, x) => (set ? `M${x} ${y}h1v1h-1z` : '')));
    return { size: rows.length, path: dark.join('') };
  }, [link]);
  return (
    <svg
      className={styles.qr}
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} className={styles.qrLight} />
      <path d={path} className={styles.qrDark} />
    </svg>
  );
}
