package sectorglass.exfat;

/** The checksum of an entry set: 16 bits, rotate right by one, add the byte. Source: Microsoft exFAT specification, section 6.3.3. */
final class SetSum {

    private SetSum() {
    }

    /**
     * Computes it; bytes 2 and 3 of the first entry are left out. Kept small, so that it is compiled early: it is most of a full check.
     *
     * @param from index of the first entry
     * @param entries number of entries
     * @param set bits that are taken as set in the type of each entry
     */
    static int of(byte[] bytes, int from, int entries, int set) {
        int sum = 0;
        for (int entry = from, end = from + entries * Directory.SLOT; entry < end; entry += Directory.SLOT) {
            sum = step(sum, bytes[entry] & 0xFF | set);
            sum = step(sum, bytes[entry + 1] & 0xFF);
            for (int i = entry == from ? entry + 4 : entry + 2; i < entry + Directory.SLOT; i++) {
                sum = ((sum >>> 1 | sum << 15) + (bytes[i] & 0xFF)) & 0xFFFF;
            }
        }
        return sum;
    }

    /** One step. */
    static int step(int sum, int value) {
        return ((sum >>> 1 | sum << 15) + value) & 0xFFFF;
    }
}
