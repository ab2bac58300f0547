/**
 * Practice disks: {@link sectorglass.practice.disk.PracticeMaker} makes one from a seed and a level, with faults planted at random;
 * {@link sectorglass.practice.disk.TaskSheet} and {@link sectorglass.practice.disk.AnswerForm} are for the learner,
 * {@link sectorglass.practice.disk.AnswerKey} is for the teacher, {@link sectorglass.practice.disk.Grading} compares the two.
 *
 * <p>The same seed and level give the same bytes on every machine: all numbers come from {@link sectorglass.make.SplitMix64}, and neither clock nor
 * locale nor file system has any influence. Whoever changes what is drawn changes all disks; a test holds some hashes.
 */
@Export
@Version("0.1.0")
package sectorglass.practice.disk;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
