/** Partition maps: MBR and EBR chains, GPT, Apple, BSD, Sun, SGI and LDM. */
package sectorglass.partition;
