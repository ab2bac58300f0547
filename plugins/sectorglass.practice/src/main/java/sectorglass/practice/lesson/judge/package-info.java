/** Judges answers of lessons and finds which typical wrong thought explains a wrong one. */
package sectorglass.practice.lesson.judge;
