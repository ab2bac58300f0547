package sectorglass.image;

import java.util.Arrays;

import sectorglass.image.store.Faults;
import sectorglass.image.store.StoredBytes;

/** The image bytes of stored bytes in a dump form. */
final class FormedBytes implements StoredBytes {
    /** Image bytes taken apart at a time. */
    private static final int SLICE = 1 << 16;

    private final StoredBytes below;
    private final DumpForm form;

    FormedBytes(StoredBytes below, DumpForm form) {
        this.below = below;
        this.form = form;
    }

    @Override
    public long length() {
        return form.imageBytes(below.length());
    }

    @Override
    public void read(long at, byte[] into, int offset, int length, Faults faults) {
        int absent = (int) Math.max(0, Math.min(length, form.firstImageByte() - at));
        if (absent > 0) {
            Arrays.fill(into, offset, offset + absent, (byte) 0);
            faults.missing(0, absent, ReadState.UNREAD);
        }
        if (form.contiguous() && !form.swapped()) {
            if (absent < length) {
                below.read(at + absent - form.firstImageByte() + form.header(), into, offset + absent, length - absent,
                        (from, count, state) -> faults.missing(absent + from, count, state));
            }
            return;
        }
        for (int done = absent; done < length; ) {
            int part = (int) Math.min(length - done, SLICE - (at + done - form.firstImageByte()) % SLICE);
            slice(at + done, into, offset + done, part, done, faults);
            done += part;
        }
    }

    /** Takes a slice apart; its bytes lie behind the first image byte and before the end. */
    private void slice(long at, byte[] into, int offset, int length, int done, Faults faults) {
        long even = form.swapped() ? 1 : 0;
        long from = at - form.firstImageByte() & ~even;
        long to = at - form.firstImageByte() + length + even & ~even;
        long payload = length() - form.firstImageByte();
        long end = Math.min(to, payload);
        long first = unswapped(from);
        byte[] stored = new byte[(int) (unswapped(end - 1) + 1 - first)];
        below.read(first, stored, 0, stored.length, (start, count, state) -> {
            ByteRange image = form.image(new ByteRange(first + start, count));
            long low = Math.max(image.start(), at);
            long high = Math.min(image.end(), at + length);
            if (high > low) {
                faults.missing((int) (low - at) + done, (int) (high - low), state);
            }
        });
        for (int i = 0; i < length; i++) {
            long wanted = at - form.firstImageByte() + i ^ even;
            if (wanted < payload) {
                into[offset + i] = stored[(int) (unswapped(wanted) - first)];
            } else {
                into[offset + i] = 0;
                faults.missing(done + i, 1, ReadState.UNREAD);
            }
        }
    }

    /** Stored byte of a payload byte as if words were not swapped. */
    private long unswapped(long payload) {
        return form.header() + (form.contiguous() ? payload
                : payload / form.payloadLength() * form.storedSector() + form.payloadOffset() + payload % form.payloadLength());
    }

    @Override
    public void close() {
        below.close();
    }
}
