package sectorglass.testvolumes;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;

import sectorglass.disk.Allocation;
import sectorglass.disk.Claim;
import sectorglass.disk.Content;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Level;
import sectorglass.disk.ReadOrder;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** Asks everything of a volume that users can ask: for damaged, hostile and partly read images, which must be stood. */
public final class VolumeExercise {

    private VolumeExercise() {
    }

    /**
     * Asks everything of the image as one volume.
     *
     * @param provider the file system that looks at it
     * @param rules the rules of its bundle
     * @return whether the file system claimed it
     */
    public static boolean run(VolumeProvider provider, RuleBook rules, SectorImage image) {
        Optional<Claim> claim = provider.recognise(new VolumeSite(image, image.all(), null));
        if (claim.isEmpty()) {
            return false;
        }
        Volume volume = provider.open(claim.get());
        assertTrue(provider.kinds().contains(volume.info().kind()), "kind " + volume.info().kind());
        volume.roles();
        volume.witnesses();
        volume.structures().forEach(s -> s.reader().read(image));
        for (long at = 0; at < image.bytes(); at += Math.max(512, image.bytes() / 64)) {
            volume.structureAt(at).ifPresent(s -> s.reader().read(image));
        }
        check(volume, rules, image);
        volume.capability(Files.class).ifPresent(VolumeExercise::files);
        volume.capability(Allocation.class).ifPresent(a -> {
            assertTrue(a.used().intersect(a.free()).isEmpty(), "sectors used and free at once");
            a.unknown();
            a.metadata();
            a.owners(new SectorRange(image.sectors() / 3, 8), Progress.NONE);
        });
        volume.capability(ReadOrder.class).ifPresent(order -> order.stages(Progress.NONE));
        return true;
    }

    private static void check(Volume volume, RuleBook rules, SectorImage image) {
        Checks checks = new Checks();
        volume.check(Level.FULL, checks);
        for (Finding f : Findings.of(checks, rules, image.sectorSize()).all()) {
            assertFalse(f.where().length() < 0 || f.what().isBlank(), "a finding without place or words");
        }
    }

    private static void files(Files files) {
        FileTree tree = files.tree(Progress.NONE);
        byte[] some = new byte[64];
        tree.walk(tree.root(), (entry, depth) -> {
            tree.entry(entry);
            Content content = files.content(entry, "");
            if (content != null) {
                content(content, some);
            }
            return true;
        });
    }

    private static void content(Content content, byte[] some) {
        long at = 0;
        for (var extent : content.extents()) {
            assertTrue(extent.offset() == at && extent.length() > 0, "a gap between extents");
            at = extent.end();
        }
        content.state();
        content.read(0, some, 0, (int) Math.min(64, Math.max(0, content.bytes())));
        for (ByteRange range : content.missing()) {
            assertTrue(range.end() <= content.bytes(), "missing beyond the end");
        }
    }
}
