/** How a machine finds a partition: the steps from LBA 0 to its first sector. */
package sectorglass.partition.way;
