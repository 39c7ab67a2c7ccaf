export * from '../../app/ui/useLengths.ts';
