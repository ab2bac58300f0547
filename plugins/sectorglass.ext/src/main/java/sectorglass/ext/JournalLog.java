package sectorglass.ext;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.Window;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * Walks the transactions that wait in a journal and judges their checksums. Source: Linux kernel documentation, filesystems/ext4,
 * journal (jbd2).
 */
final class JournalLog {
    private static final int SAME_IDENTITY = 2;
    private static final int LAST = 8;
    private static final int IDENTITY = 16;

    private final Layout layout;
    private final Journal journal;
    private final Tally tally;
    private long at;
    private long left;
    private long sequence;

    JournalLog(Layout layout, Journal journal, Tally tally) {
        this.layout = layout;
        this.journal = journal;
        this.tally = tally;
    }

    /** Walks to the end of the log, to what was not read, or once around. */
    void run(Progress progress) {
        at = journal.start();
        left = journal.length();
        sequence = journal.sequence();
        if (at == 0 || at >= journal.length() || journal.first() >= journal.length()) {
            return;
        }
        boolean goesOn = true;
        while (goesOn && left > 0) {
            progress.checkCancelled();
            progress.at("journal", journal.length() - left, journal.length());
            goesOn = block();
        }
        tally.flush(new ByteRange(layout.site.firstByte(), layout.sb.blocks() * layout.blockSize));
    }

    private boolean block() {
        long place = journal.physical(at);
        if (place < 0) {
            return false;
        }
        Window w = layout.read(place);
        if (!w.isRead(0, layout.blockSize)) {
            for (String rule : new String[] {"ext.journal.descriptor-checksum", "ext.journal.commit-checksum"}) {
                unread(rule, w);
            }
            return false;
        }
        if (w.u32be(0) != Journal.MAGIC || w.u32be(8) != sequence) {
            return false;
        }
        step();
        switch ((int) w.u32be(4)) {
            case Journal.DESCRIPTOR -> tags(w, tail("ext.journal.descriptor-checksum", w, layout.blockSize - 4));
            case Journal.REVOCATION -> tail("ext.journal.descriptor-checksum", w, layout.blockSize - 4);
            case Journal.COMMIT -> {
                tail("ext.journal.commit-checksum", w, 16);
                sequence = sequence + 1 & 0xFFFFFFFFL;
            }
            default -> {
                return false;
            }
        }
        return true;
    }

    private void step() {
        at = journal.next(at);
        left--;
    }

    private void unread(String rule, Window w) {
        if (journal.sums()) {
            tally.unread(rule, w.missing(0, layout.blockSize));
        }
    }

    /** The checksum of a block of the journal's own, at an offset in it that counts as zero. */
    private Mark tail(String rule, Window w, int sumAt) {
        if (!journal.sums()) {
            return null;
        }
        byte[] bytes = w.bytes(0, layout.blockSize);
        java.util.Arrays.fill(bytes, sumAt, sumAt + 4, (byte) 0);
        int computed = Crc.raw(journal.seed(), bytes);
        if (computed == (int) w.u32be(sumAt)) {
            tally.pass(rule);
            return null;
        }
        return tally.fail(rule, w.range(sumAt, 4), w.range(), Outcome.failed(String.format("%08X", w.u32be(sumAt)),
                String.format("%08X", computed)).with("sequence", sequence));
    }

    /** The tags of a descriptor and the blocks they stand for. */
    private void tags(Window w, Mark cause) {
        int size = journal.tagSize();
        int end = layout.blockSize - (journal.sums() ? 4 : 0);
        int tag = 12;
        boolean last = false;
        while (!last && tag + size <= end && left > 0) {
            long flags = journal.wideSums() ? w.u32be(tag + 4) : w.u16be(tag + 6);
            logged(w, tag, cause);
            step();
            last = (flags & LAST) != 0;
            tag += size + ((flags & SAME_IDENTITY) == 0 ? IDENTITY : 0);
        }
    }

    private void logged(Window w, int tag, Mark cause) {
        long place = journal.physical(at);
        if (!journal.sums() || place < 0) {
            return;
        }
        Window data = layout.read(place);
        if (!data.isRead(0, layout.blockSize)) {
            tally.unread("ext.journal.tag-checksum", data.missing(0, layout.blockSize));
            return;
        }
        byte[] number = {(byte) (sequence >> 24), (byte) (sequence >> 16), (byte) (sequence >> 8), (byte) sequence};
        long computed = Crc.raw(Crc.raw(journal.seed(), number), data.bytes(0, layout.blockSize)) & (journal.wideSums() ? 0xFFFFFFFFL : 0xFFFFL);
        int sumAt = journal.wideSums() ? tag + 12 : tag + 4;
        long stored = journal.wideSums() ? w.u32be(sumAt) : w.u16be(sumAt);
        if (computed == stored) {
            tally.pass("ext.journal.tag-checksum");
        } else {
            long block = w.u32be(tag) | (journal.wide() ? w.u32be(tag + 8) << 32 : 0);
            tally.fail("ext.journal.tag-checksum", data.range(), data.range(), Outcome.failed(String.format("%08X", stored),
                    String.format("%08X", computed)).with("block", block).with("sequence", sequence).because(cause));
        }
    }
}
