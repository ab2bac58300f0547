/** Files of a volume with what was recovered of each, and their extraction. */
package sectorglass.workbench.recovery.files;
