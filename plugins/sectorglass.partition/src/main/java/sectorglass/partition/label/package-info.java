/** Maps other than MBR and GPT: Apple partition map, BSD, Sun and SGI labels, the private header of LDM. */
package sectorglass.partition.label;
