/** Reads the text files of lessons, disks and terms; mistakes are collected with their lines. */
package sectorglass.practice.lesson.read;
