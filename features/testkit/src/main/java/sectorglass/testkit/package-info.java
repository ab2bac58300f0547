/** What tests share: the image corpus and reference utilities. Not part of any product. */
package sectorglass.testkit;
