/**
 * Writes maps and volumes from a description and a seed, without boot code: for the demo disk, practice, tests and benchmarks.
 *
 * <p>{@link sectorglass.make.DiskMaker} turns a {@link sectorglass.make.DiskDescription} into a sparse file;
 * {@link sectorglass.make.Damage} plants faults in it; {@link sectorglass.make.Demo} is the demo disk,
 * {@link sectorglass.make.BigVolume} makes volumes with very many files. All random numbers come from
 * {@link sectorglass.make.SplitMix64}; neither clock nor locale nor zone of the machine has any influence. Everything that is made
 * is invented and says so in a file of the volume.
 */
@Export
@Version("0.1.0")
package sectorglass.make;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
