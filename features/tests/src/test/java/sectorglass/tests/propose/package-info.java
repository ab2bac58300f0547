/** Disks that reference utilities made, damaged, proposed for, corrected on a copy, and read again by the same utilities. */
package sectorglass.tests.propose;
