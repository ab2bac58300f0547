/** The little language in which lessons name places, numbers and texts of a disk (docs/lessons-format.md). */
package sectorglass.practice.lesson.place;
