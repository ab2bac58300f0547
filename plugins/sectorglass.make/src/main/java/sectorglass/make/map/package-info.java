/** Writers of partition maps: MBR with its chain of extended boot records, GPT, hybrid. */
package sectorglass.make.map;
