/** What the files hold: text, pictures, sound, documents, archives, all invented from a seed, all of an exact size. */
package sectorglass.make.content;
