package sectorglass.ntfs;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.GZIPInputStream;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** A volume of 3 MiB with every shape of record; bytes of its metadata are changed and sectors taken away as a fuzzer says. */
final class ShapesVolume implements SectorImage {
    private static final int SECTOR = 512;
    private static final int CAPITALS = 1336 * SECTOR;
    private static final int MOST_EDITS = 24;

    private final byte[] sound;
    private final byte[] bytes;
    /** Places worth changing: boot sector, records, index blocks, lists, bitmaps. */
    private final List<SectorRange> places = new ArrayList<>();
    private final List<long[]> changed = new ArrayList<>();
    private SectorRanges unread = SectorRanges.EMPTY;

    ShapesVolume() {
        Path stored = Path.of(System.getProperty("house", "../.."), "plugins/sectorglass.ntfs/src/test/resources/sectorglass/ntfs/shapes.img.gz");
        try (InputStream in = new GZIPInputStream(Files.newInputStream(stored))) {
            sound = in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        for (int i = 0; i < 65536; i++) {
            char upper = Character.toUpperCase((char) i);
            sound[CAPITALS + 2 * i] = (byte) upper;
            sound[CAPITALS + 2 * i + 1] = (byte) (upper >> 8);
        }
        bytes = sound.clone();
        for (int at = 0; at < bytes.length; at += SECTOR) {
            String head = new String(sound, at, 4, java.nio.charset.StandardCharsets.ISO_8859_1);
            boolean record = head.equals("FILE");
            if (at == 0 || record || head.equals("INDX")) {
                places.add(new SectorRange(at, record ? 1024 : at == 0 ? SECTOR : 4096));
            }
        }
        NtfsVolume volume = (NtfsVolume) new NtfsProvider().open(new NtfsProvider().recognise(
                new sectorglass.disk.VolumeSite(this, all(), null)).orElseThrow());
        for (long number : new long[] {0, 5, 6}) {
            for (FileStream stream : FileRecord.of(volume.table(), number).all()) {
                if (stream.type == AttributeType.BITMAP || number == 6) {
                    for (int i = 0; i < stream.runs.runs(); i++) {
                        places.add(new SectorRange(stream.runs.lcn(i) * SECTOR, stream.runs.count(i) * SECTOR));
                    }
                }
            }
        }
    }

    /** The volume with the next changes. */
    ShapesVolume changed(FuzzedDataProvider data) {
        for (long[] range : changed) {
            System.arraycopy(sound, (int) range[0], bytes, (int) range[0], (int) range[1]);
        }
        changed.clear();
        unread = SectorRanges.EMPTY;
        int holes = data.consumeInt(0, 3);
        for (int i = 0; i < holes; i++) {
            SectorRange place = places.get(data.consumeInt(0, places.size() - 1));
            unread = unread.union(SectorRanges.of(place.first() / SECTOR + data.consumeInt(0, (int) Math.min(7, place.count() / SECTOR - 1)), 1));
        }
        for (int i = 0; i < MOST_EDITS && data.remainingBytes() > 3; i++) {
            SectorRange place = places.get(data.consumeInt(0, places.size() - 1));
            int at = (int) place.first() + data.consumeInt(0, (int) place.count() - 1);
            byte[] value = data.consumeBytes(data.consumeInt(1, 16));
            int length = Math.min(value.length, bytes.length - at);
            System.arraycopy(value, 0, bytes, at, length);
            changed.add(new long[] {at, length});
        }
        return this;
    }

    @Override
    public String name() {
        return "memory";
    }

    @Override
    public int sectorSize() {
        return SECTOR;
    }

    @Override
    public long bytes() {
        return bytes.length;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        long first = firstByte / SECTOR;
        int count = length == 0 ? 0 : (int) ((firstByte + length - 1) / SECTOR - first + 1);
        ReadState[] states = new ReadState[count];
        java.util.Arrays.fill(into, offset, offset + length, (byte) 0);
        for (int i = 0; i < count; i++) {
            states[i] = state(first + i);
            long from = Math.max(firstByte, (first + i) * SECTOR);
            long to = Math.min(firstByte + length, (first + i + 1) * SECTOR);
            if (states[i] == ReadState.READ) {
                System.arraycopy(bytes, (int) from, into, (int) (offset + from - firstByte), (int) (to - from));
            }
        }
        return SectorStates.of(SECTOR, first, states);
    }

    @Override
    public ReadState state(long lba) {
        return lba < 0 || lba >= sectors() || unread.contains(lba) ? ReadState.UNREAD : ReadState.READ;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges inside = SectorRanges.of(all()).intersect(within).minus(unread);
        return switch (state) {
            case READ -> inside;
            case UNREAD -> SectorRanges.of(within).minus(inside);
            default -> SectorRanges.EMPTY;
        };
    }
}
