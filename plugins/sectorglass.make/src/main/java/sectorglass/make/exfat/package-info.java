/** Writer of exFAT volumes. */
package sectorglass.make.exfat;
