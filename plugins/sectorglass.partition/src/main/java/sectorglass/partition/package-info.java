/**
 * Partition maps: MBR and EBR chains, GPT, Apple, BSD, Sun, SGI and LDM. Here: what the maps share, their rules and their formats.
 */
package sectorglass.partition;
