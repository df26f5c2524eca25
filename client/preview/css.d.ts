/** A style sheet that the bundler writes beside the script. */
declare module '*.css';
