import { Button, Choice, IconButton } from '../../../app/ui/controls.tsx';
import { useText } from '../../../text/useText.ts';
import styles from '../match.module.css';
import { BRUSH_SIZES, type BrushSize, TOOLS, type Tool } from './tools.ts';

export interface ToolBarProps {
  readonly tool: Tool;
  readonly size: BrushSize;
  readonly onTool: (tool: Tool) => void;
  readonly onSize: (size: BrushSize) => void;
  readonly onPick: () => void;
  readonly onClear: () => void;
}

/** What the hand holds. */
export function ToolBar({ tool, size, onTool, onSize, onPick, onClear }: ToolBarProps) {
  const t = useText();
  return (
    <div className={styles.tools} role="toolbar" aria-label={t('match.paint.tools')}>
      <Choice
        label={t('match.paint.tools')}
        name="paint-tool"
        options={TOOLS.map((value) => ({ value, text: t(`match.paint.tool.${value}`) }))}
        value={tool}
        onChoose={onTool}
      />
      {(tool === 'brush' || tool === 'wipe') && (
        <Choice
          label={t('match.paint.size')}
          name="paint-size"
          options={BRUSH_SIZES.map((value) => ({ value, text: t(`match.paint.size.${value}`) }))}
          value={size}
          onChoose={onSize}
        />
      )}
      <Button onPress={onPick}>{t('match.gallery.open')}</Button>
      <span className={styles.push}>
        <IconButton icon="reset" label={t('match.look.clear')} onPress={onClear} />
      </span>
    </div>
  );
}
