package sectorglass.report.delivery;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.disk.Content;
import sectorglass.disk.Disk;
import sectorglass.disk.Extent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Level;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.recovery.Job;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.recovery.outcome.WishAnswer;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;

/** A volume of named files in one folder, each with a length and a number of bytes that are missing at a place. */
final class Shelf implements Volume, Files {
    private final CompactTreeBuilder builder = new CompactTreeBuilder();
    private final List<long[]> sizes = new ArrayList<>();
    private final int folder;
    private CompactTree tree;

    Shelf(String folderName) {
        int root = builder.add("", true, false, 0, (FileStamp) null, 0, 0);
        builder.root(root);
        sizes.add(null);
        folder = builder.add(folderName, true, false, 0, (FileStamp) null, 1, 1);
        builder.parent(folder, root);
        sizes.add(null);
    }

    Shelf file(String name, long bytes, long missingAt, long missing) {
        int id = builder.add(name, false, false, bytes, FileStamp.of(LocalDateTime.of(2026, 3, 4, 5, 6).toInstant(ZoneOffset.UTC)), sizes.size(), sizes.size());
        builder.parent(id, folder);
        sizes.add(new long[] {bytes, missingAt, missing});
        return this;
    }

    @Override
    public synchronized FileTree tree(Progress progress) {
        if (tree == null) {
            tree = builder.build((of, id, key) -> new FileEntry(id, of.parent(id), of.number(id), of.name(id), of.path(id), of.folder(id), false, of.bytes(id),
                    new FileTimes(null, of.modified(id), null, null), List.of(), 1, List.of(), null, List.of()));
        }
        return tree;
    }

    @Override
    public Content content(int entry, String stream) {
        long[] size = sizes.get((int) tree.number(entry));
        return size == null ? null : new Content() {
            @Override
            public long bytes() {
                return size[0];
            }

            @Override
            public List<Extent> extents() {
                return List.of(Extent.hole(0, Math.max(1, size[0])));
            }

            @Override
            public List<ByteRange> read(long offset, byte[] into, int at, int length) {
                for (int i = 0; i < length; i++) {
                    into[at + i] = (byte) (offset + i);
                }
                return List.of();
            }

            @Override
            public List<ByteRange> missing() {
                return size[2] == 0 ? List.of() : List.of(new ByteRange(size[1], size[2]));
            }
        };
    }

    @Override
    public VolumeInfo info() {
        return new VolumeInfo("ntfs", new SectorRange(0, 100), "Shelf", null, null, null, 4096L, 51200L, null, null, List.of());
    }

    @Override
    public VolumeSite site() {
        throw new UnsupportedOperationException();
    }

    @Override
    public void check(Level level, Checks out) {
        // nothing to check
    }

    @Override
    public List<Structure> structures() {
        return List.of();
    }

    @Override
    public Optional<Structure> structureAt(long imageByte) {
        return Optional.empty();
    }

    /** An image of a hundred sectors, of which ten failed. */
    private static final SectorImage IMAGE = new SectorImage() {
        @Override
        public String name() {
            return "shelf";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return 51_200;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            throw new UnsupportedOperationException();
        }

        @Override
        public ReadState state(long lba) {
            return lba >= 40 && lba < 50 ? ReadState.FAILED : ReadState.READ;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            SectorRanges failed = SectorRanges.of(40, 10);
            return state == ReadState.FAILED ? failed.intersect(within) : state == ReadState.READ ? SectorRanges.of(within).minus(failed) : SectorRanges.EMPTY;
        }
    };

    ReportInput input(Locale locale, List<WishAnswer> wishes) {
        return input(locale, wishes, Job.empty().logged(Instant.EPOCH, "me & you", "<b>bold</b>"), List.of());
    }

    ReportInput input(Locale locale, Job job, List<Finding> findings) {
        return input(locale, List.of(), job, findings);
    }

    private ReportInput input(Locale locale, List<WishAnswer> wishes, Job job, List<Finding> findings) {
        Outcome outcome = Outcome.of(new VolumeFiles(1, this, this), false, Progress.NONE);
        return new ReportInput(new Disk(IMAGE, List.of(), List.of(), this), List.of(new ReportInput.Source("shelf<1>.img", 51_200, null)), List.of(outcome), List.of(), wishes,
                new Findings(findings, new Findings.Counts(0, 0, 0, 0, 0)), new ReadPlan(List.of(), 10, List.of()), job,
                "2026-117", locale, Instant.parse("2026-02-03T10:00:00Z"), ZoneOffset.UTC);
    }
}
