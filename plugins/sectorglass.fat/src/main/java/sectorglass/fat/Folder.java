package sectorglass.fat;

/**
 * A directory to be walked.
 *
 * @param number in {@link Owners}
 * @param owner number of its chain in {@link Owners}
 * @param cluster its first cluster; 0 for the fixed root directory
 * @param parentCluster what its ".." must hold: 0 where the parent is the root
 * @param root whether it is the root directory
 * @param directory its slots
 */
record Folder(int number, int owner, int cluster, int parentCluster, boolean root, Directory directory) { }
