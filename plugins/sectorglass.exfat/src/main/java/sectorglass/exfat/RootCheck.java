package sectorglass.exfat;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * First FAT entries, chain of the root directory, and the entries that only the root holds: bitmap, up-case table, label. Source:
 * Microsoft exFAT specification, sections 4.1 and 7.1 to 7.3.
 */
final class RootCheck {

    private final VolumeSite site;
    private final Geometry geometry;
    private final Root root;
    private final Fat fat;
    private final Mark size;
    private final Checks out;
    private Mark rootChain;
    private Mark bitmap;
    private Mark upcaseEntry;
    private Upcase upcase = Upcase.fixedPart();

    /** @param size the broken verdict about the size of the volume, or null */
    RootCheck(VolumeSite site, Geometry geometry, Root root, Fat fat, Mark size, Checks out) {
        this.site = site;
        this.geometry = geometry;
        this.root = root;
        this.fat = fat;
        this.size = size;
        this.out = out;
    }

    /** The table to compare names with: that of the volume where it passes, else the fixed part. */
    Upcase upcase() {
        return upcase;
    }

    /** The verdict about the number of bitmaps, or null. */
    Mark bitmap() {
        return bitmap;
    }

    /** The verdict about the number of up-case tables, or null. */
    Mark upcaseEntry() {
        return upcaseEntry;
    }

    Mark rootChain() {
        return rootChain;
    }

    void run() {
        firstEntries();
        rootChain = out.check("exfat.root-chain", rootWhere(), this::chain);
        if (root.directory() == null) {
            return;
        }
        Checks here = out.in(new ByteRange(root.directory().address(0, 0), geometry.clusterBytes()));
        ByteRange start = root.directory().where(0, 0, 32);
        bitmap = here.check("exfat.bitmap-entry-count", root.bitmaps().isEmpty() ? start : root.directory().where(root.bitmaps().get(0), 0, 32),
                () -> count(root.bitmaps().size(), geometry.fats(), "bitmap"));
        upcaseEntry = here.check("exfat.upcase-one-entry", root.upcases().isEmpty() ? start : root.directory().where(root.upcases().get(0), 0, 32),
                () -> count(root.upcases().size(), 1, "up-case table"));
        for (int slot : root.bitmaps()) {
            here.check("exfat.bitmap-long-enough", root.directory().where(slot, 24, 8), () -> bitmapLength(slot));
        }
        if (!root.upcases().isEmpty()) {
            table(here, root.upcases().get(0));
        }
        labels(here);
    }

    private void firstEntries() {
        Window head = site.window(geometry.fatByte(), 8);
        out.in(head.range()).check("exfat.first-fat-entries", head.range(0, 4), () -> {
            if (head.u32le(0) != 0xFFFFFFF8L) {
                return Outcome.failed(Text.hex(head.u32le(0), 8), "0xFFFFFFF8").with("entry", 0);
            }
            return Outcome.test(head.u32le(4) == 0xFFFFFFFFL, Text.hex(head.u32le(4), 8), "0xFFFFFFFF").with("entry", 1)
                    .at(head.range(4, 4));
        });
    }

    private ByteRange rootWhere() {
        return root.chain().clusters() == 0 ? new ByteRange(site.firstByte() + BootSector.ROOT_CLUSTER, 4) : fat.where(root.chain().last());
    }

    private Outcome chain() {
        Chain chain = root.chain();
        return switch (chain.end()) {
            case MARK -> Outcome.passed();
            case UNREAD -> Outcome.unread(fat.missing(chain.last()));
            case LIMIT -> Outcome.failed(chain.clusters() + " clusters", "at most 256 MiB");
            case LOOP -> Outcome.failed("back to cluster " + chain.value(), "an end mark");
            default -> Outcome.failed(Text.hex(chain.value(), 8), "2 to " + geometry.lastCluster() + ", or FFFFFFFF");
        };
    }

    private Outcome count(int found, int wanted, String what) {
        if (found < wanted && !root.complete()) {
            return missing();
        }
        return Outcome.test(found == wanted, found, wanted).with("what", what);
    }

    /** Absence cannot be concluded from a directory that was not read to its end. */
    private Outcome missing() {
        SectorRanges missing = root.directory().missing();
        if (missing.isEmpty() && rootChain != null && !rootChain.passed()) {
            return Outcome.undecided("the root directory could not be followed to its end").because(rootChain);
        }
        return missing.isEmpty() ? Outcome.undecided("the root directory is longer than what was read at first") : Outcome.unread(missing);
    }

    private Outcome bitmapLength(int slot) {
        long needed = (geometry.clusters() + 7) / 8;
        long stored = root.directory().u64(slot, 24);
        return Outcome.test(Long.compareUnsigned(stored, needed) >= 0, Long.toUnsignedString(stored) + " bytes",
                "at least " + needed + " bytes").because(size);
    }

    private void table(Checks here, int slot) {
        long length = root.directory().u64(slot, 24);
        int stored = (int) root.directory().u32(slot, 4);
        Mark mark = here.check("exfat.upcase-checksum", root.directory().where(slot, 4, 4), () -> {
            if (length <= 0 || length > Upcase.MOST_BYTES) {
                return Outcome.failed(Long.toUnsignedString(length) + " bytes", "2 to " + Upcase.MOST_BYTES + " bytes")
                        .at(root.directory().where(slot, 24, 8));
            }
            Chain chain = Chain.follow(fat, root.directory().u32(slot, 20), geometry.clustersOf(length));
            if (chain.end() == Chain.End.UNREAD && chain.clusters() < geometry.clustersOf(length)) {
                return Outcome.unread(fat.missing(chain.last()));
            }
            if (chain.clusters() < geometry.clustersOf(length)) {
                return Outcome.failed(chain.clusters() + " clusters", geometry.clustersOf(length) + " clusters")
                        .at(chain.clusters() == 0 ? root.directory().where(slot, 20, 4) : fat.where(chain.last()));
            }
            byte[] bytes = Stretch.of(site, geometry, chain, length).window(0, (int) length).bytes(0, (int) length);
            int sum = Upcase.checksum(bytes);
            Upcase table = Upcase.of(bytes);
            if (sum == stored) {
                upcase = table;
            }
            return Outcome.test(sum == stored, Text.sum(stored), Text.sum(sum));
        });
        here.check("exfat.upcase-first-128", root.directory().where(slot, 20, 4), () -> {
            if (length <= 0 || length > Upcase.MOST_BYTES || !geometry.exists(root.directory().u32(slot, 20))) {
                return null;
            }
            int head = (int) Math.min(256, length);
            Window window = site.window(geometry.clusterByte(root.directory().u32(slot, 20)), head);
            int odd = Upcase.of(window.bytes(0, head)).firstOdd();
            return odd < 0 ? Outcome.passed() : Outcome.failed("character " + Text.hex(odd, 4), "the fixed mapping")
                    .at(window.range(Math.min(odd * 2, head - 2), 2)).because(mark);
        });
    }

    private void labels(Checks here) {
        for (int slot : root.labels()) {
            here.check("exfat.label-length", root.directory().where(slot, 1, 1), () -> Outcome.test(root.directory().u8(slot, 1) <= 11,
                    root.directory().u8(slot, 1), "at most 11"));
        }
    }
}
