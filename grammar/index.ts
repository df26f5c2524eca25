/**
 * Text -> tree -> text. The only door into this folder.
 *
 *   parse(text)         never throws, always a tree, whatever the bytes
 *   parseBlock(text)    one block on its own; the same text gives the same tree
 *   splitBlocks(text)   where blocks begin, without parsing them
 *   format(text)        canonical layout
 *   printBlock(block)   canonical text of one block
 */
export * from './tree';
