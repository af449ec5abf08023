// Style sheets are imported for the bundler, which writes them beside the script: they export nothing.

declare module '*.css';
