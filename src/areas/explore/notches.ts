export * from '../../app/ui/notches.ts';
