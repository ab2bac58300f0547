package sectorglass.apple;

import java.util.List;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** Judges the space manager, its chunks and bitmaps. Source: Apple File System Reference, "Space Manager", by way of apfs_raw.h. */
final class ApfsSpaceChecks {
    private final ApfsContainer container;
    private final ApfsSpace space;
    private final Checks all;

    ApfsSpaceChecks(ApfsContainer container, ApfsSpace space, Checks all) {
        this.container = container;
        this.space = space;
        this.all = all;
    }

    /** @param sum the verdict on the manager's checksum */
    void check(Level level, Progress progress, Mark sum) {
        VolumeHeader header = space.header;
        Checks out = all.in(header.whole());
        out.check("apfs.space.size", header.range(0x30, 8), () -> {
            long claimed = container.superblock().u64le(0x28);
            return Outcome.test(space.blocks() == claimed, space.blocks(), claimed).because(sum);
        });
        Tally tally = new Tally(all, header.whole());
        Mark[] fault = {sum};
        for (long block : space.infos) {
            object(tally, block, 7, "chunk-info block", fault);
        }
        for (long block : space.tables) {
            object(tally, block, 6, "address block of chunk-info blocks", fault);
        }
        List<ApfsSpace.Chunk> chunks = space.chunks();
        SectorRanges unread = SectorRanges.of(space.unread());
        out.check("apfs.space.free-sum", header.range(0x48, 8), () -> {
            header.window().require(0, container.blockSize);
            if (!unread.isEmpty()) {
                return Outcome.unread(unread);
            }
            long free = chunks.stream().mapToLong(ApfsSpace.Chunk::free).sum();
            return space.damaged() ? Outcome.undecided("chunks of the space manager cannot be found").because(fault[0])
                    : Outcome.test(free == space.free(), space.free(), free).because(fault[0]);
        });
        if (level == Level.FULL) {
            for (int i = 0; i < chunks.size(); i++) {
                ApfsSpace.step(progress, i, chunks.size());
                chunk(tally, chunks.get(i), fault[0]);
            }
            if (!unread.isEmpty()) {
                tally.unread("apfs.space.chunk-free", unread);
            }
            tally.finish(List.of("apfs.space.chunk-free"), space.damaged() ? fault[0] : null);
        }
    }

    private void object(Tally tally, long block, int type, String name, Mark[] fault) {
        VolumeHeader header = container.header(block);
        if (!header.inside()) {
            return;
        }
        Window w = header.window();
        Mark sum = tally.check("apfs.obj.checksum", header.whole(), header.range(0, 8), () -> {
            long computed = ApfsObject.sum(w);
            return Outcome.test(computed == w.u64le(0), String.format("%016X", w.u64le(0)), String.format("%016X", computed))
                    .with("object", name + " in block " + block);
        });
        Mark identity = tally.check("apfs.obj.identity", header.whole(), header.range(8, 20), () -> Outcome.test(w.u64le(8) == block
                && w.u16le(24) == type, Long.toUnsignedString(w.u64le(8)) + ", type " + Integer.toHexString(w.u16le(24)), block + ", type " + type)
                .with("object", name + " in block " + block).because(sum));
        for (Mark mark : new Mark[] {sum, identity}) {
            fault[0] = mark.failed() && (fault[0] == null || !fault[0].failed()) ? mark : fault[0];
        }
    }

    /** The free count of a chunk is the number of clear bits in its bitmap. */
    private void chunk(Tally tally, ApfsSpace.Chunk chunk, Mark fault) {
        VolumeHeader info = container.header(chunk.info());
        ByteRange where = info.range(chunk.at() + 20, 4);
        VolumeHeader bitmap = container.header(chunk.bitmap());
        tally.check("apfs.space.chunk-free", info.whole(), where, () -> {
            if (chunk.bitmap() != 0 && !bitmap.inside()) {
                return Outcome.failed("a bitmap in block " + chunk.bitmap(), "a block of the container").because(fault);
            }
            long[] free = {0};
            if (!space.bits(chunk, (block, bytes, count) -> {
                for (int i = 0; i < count; i++) {
                    free[0] += (bytes[i >> 3] & 1 << (i & 7)) == 0 ? 1 : 0;
                }
            })) {
                return Outcome.unread(bitmap.window().missing(0, (int) ((chunk.blocks() + 7) / 8)));
            }
            return Outcome.test(free[0] == chunk.free(), "chunk of block " + chunk.first() + ": " + chunk.free() + " free blocks", free[0])
                    .because(fault);
        });
    }
}
