package sectorglass.recovery;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;

import sectorglass.disk.Finder;
import sectorglass.disk.Signature;

/**
 * All signatures of a search, arranged so that one look at a few pairs of bytes decides about a block of 512 bytes: for each offset in the
 * block at which some signature begins, a bit per pair of bytes that one of them begins with.
 */
final class SignatureTable {
    /** Structures start at multiples of this many bytes, whatever the sector size. */
    static final int BLOCK = 512;
    /** A signature may run over the end of its block by fewer bytes than this. */
    static final int OVER = 16;
    private static final VarHandle PAIRS = MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.LITTLE_ENDIAN);

    /**
     * A signature and who decodes it.
     *
     * @param number its place in {@link #wanted}
     * @param at offset in the block where it stands
     * @param back bytes from the start of the structure to that block
     */
    record Wanted(int number, Finder finder, Signature signature, boolean rows, int at, int back) {

        boolean matches(byte[] in, int block, int end) {
            byte[] bytes = signature.bytes();
            int from = block + at;
            return from + bytes.length <= end && Arrays.equals(in, from, from + bytes.length, bytes, 0, bytes.length);
        }
    }

    /** Receives the places where signatures stand. */
    @FunctionalInterface
    interface Hits {
        /** @param block offset in the array of the block that holds the signature */
        void hit(Wanted wanted, int block);
    }

    private final List<Wanted> wanted = new ArrayList<>();
    private final int[] offsets;
    private final long[][] bits;
    private final Wanted[][] groups;

    SignatureTable(List<Finder> finders) {
        TreeMap<Integer, List<Wanted>> byOffset = new TreeMap<>();
        for (Finder finder : finders) {
            for (Signature signature : finder.signatures()) {
                if (signature.bytes().length < 2 || signature.bytes().length > OVER || signature.offset() < 0) {
                    throw new IllegalArgumentException("a signature has 2 to 16 bytes: " + signature.structure());
                }
                int at = signature.offset() % BLOCK;
                Wanted one = new Wanted(wanted.size(), finder, signature, finder.inRows(signature), at, signature.offset() - at);
                wanted.add(one);
                byOffset.computeIfAbsent(at, k -> new ArrayList<>()).add(one);
            }
        }
        offsets = byOffset.keySet().stream().mapToInt(i -> i).toArray();
        groups = byOffset.values().stream().map(g -> g.toArray(new Wanted[0])).toArray(Wanted[][]::new);
        bits = new long[offsets.length][1024];
        for (int g = 0; g < groups.length; g++) {
            for (Wanted one : groups[g]) {
                int pair = one.signature.bytes()[0] & 0xFF | (one.signature.bytes()[1] & 0xFF) << 8;
                bits[g][pair >> 6] |= 1L << pair;
            }
        }
    }

    List<Wanted> wanted() {
        return wanted;
    }

    /**
     * Looks at every block that starts in the array before {@code blocksEnd}.
     *
     * @param end bytes in the array, at most {@link #OVER} more than the blocks need
     */
    void scan(byte[] in, int blocksEnd, int end, Hits hits) {
        for (int g = 0; g < offsets.length; g++) {
            scan(in, offsets[g], bits[g], groups[g], blocksEnd, end, hits);
        }
    }

    private static void scan(byte[] in, int offset, long[] set, Wanted[] group, int blocksEnd, int end, Hits hits) {
        int last = Math.min(blocksEnd, end - offset - 1);
        for (int block = 0; block < last; block += BLOCK) {
            int pair = (short) PAIRS.get(in, block + offset) & 0xFFFF;
            if ((set[pair >> 6] & 1L << pair) != 0) {
                for (Wanted one : group) {
                    if (one.matches(in, block, end)) {
                        hits.hit(one, block);
                    }
                }
            }
        }
    }
}
