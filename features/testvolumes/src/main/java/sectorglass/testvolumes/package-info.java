/** What the tests of file systems share: images with planted bytes and unread sectors, and questions that every volume must stand. */
package sectorglass.testvolumes;
