/** Values and problems in words: numbers in the units of the trade, dates, members of enumerations, sentences from properties files. */
package sectorglass.decode.internal.text;
