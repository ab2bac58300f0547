/** exFAT: recognition, structures and rules. */
package sectorglass.exfat;
