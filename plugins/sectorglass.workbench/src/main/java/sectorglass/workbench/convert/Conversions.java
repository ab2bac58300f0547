package sectorglass.workbench.convert;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import sectorglass.decode.FieldNode;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;

/**
 * Changes what a person types or a field holds into its other forms. An address of cylinder, head and sector becomes an LBA by
 * (cylinder × heads + head) × sectors + sector − 1, with 255 heads and 63 sectors, the geometry that partition tables assume (common practice).
 */
public final class Conversions {
    private static final int HEADS = 255;
    private static final int SECTORS = 63;
    /** Digits that are looked at; more are no number of a disk. */
    private static final int LONGEST = 40;
    private static final Pattern CHS = Pattern.compile("(\\d{1,7})\\s*/\\s*(\\d{1,3})\\s*/\\s*(\\d{1,3})");
    private static final Pattern SIZE = Pattern.compile("(\\d{1,20}(?:[.,]\\d{1,12})?)\\s*(B|[kKMGTP]i?B)");
    private static final Map<Character, Integer> POWERS = Map.of('K', 1, 'M', 2, 'G', 3, 'T', 4, 'P', 5);

    private Conversions() {
    }

    /**
     * The forms of what was typed; empty where it is nothing that is known here.
     *
     * @param sectorSize bytes per sector, for LBAs
     * @param zone where local times are local
     */
    public static List<Form> of(String typed, int sectorSize, ZoneId zone) {
        String text = typed.strip();
        List<Form> forms = new ArrayList<>();
        if (text.isEmpty() || text.length() > 80 || Ids.forms(forms, text)) {
            return forms;
        }
        Matcher chs = CHS.matcher(text);
        if (chs.matches()) {
            chs(forms, Long.parseLong(chs.group(1)), Integer.parseInt(chs.group(2)), Integer.parseInt(chs.group(3)), sectorSize);
            return forms;
        }
        Matcher size = SIZE.matcher(text);
        if (size.matches()) {
            size(forms, bytes(size.group(1), size.group(2)), sectorSize);
            return forms;
        }
        Optional<Instant> moment = Moments.typed(text, zone);
        if (moment.isPresent()) {
            Moments.numbers(forms, moment.get(), zone);
            return forms;
        }
        number(text).ifPresent(number -> number(forms, number, sectorSize, zone));
        return forms;
    }

    private static Optional<BigInteger> number(String text) {
        String bare = text.replaceAll("[\\s\u2009\u00A0_]", "");
        try {
            if (bare.length() > LONGEST) {
                return Optional.empty();
            }
            return Optional.of(bare.toLowerCase(Locale.ROOT).startsWith("0x") ? new BigInteger(bare.substring(2), 16) : new BigInteger(bare));
        } catch (NumberFormatException e) {
            return Optional.empty();
        }
    }

    private static BigInteger bytes(String number, String unit) {
        BigDecimal value = new BigDecimal(number.replace(',', '.'));
        char letter = Character.toUpperCase(unit.charAt(0));
        int base = unit.indexOf('i') > 0 ? 1024 : 1000;
        BigDecimal factor = unit.equals("B") ? BigDecimal.ONE : BigDecimal.valueOf(base).pow(POWERS.get(letter));
        return value.multiply(factor).setScale(0, RoundingMode.HALF_UP).toBigInteger();
    }

    private static void chs(List<Form> into, long cylinder, int head, int sector, int sectorSize) {
        if (sector < 1 || sector > SECTORS || head >= HEADS) {
            into.add(new Form(Texts.of("convert.chs"), Texts.of("convert.chs.none", HEADS - 1, SECTORS)));
            return;
        }
        long lba = (cylinder * HEADS + head) * SECTORS + sector - 1;
        into.add(new Form("LBA", Numbers.grouped(lba) + "  =  0x" + Numbers.hex(lba, 1)));
        into.add(new Form(Texts.of("convert.arithmetic"), Texts.of("convert.chs.sum", Numbers.grouped(cylinder), HEADS, head, SECTORS, sector,
                Numbers.grouped(lba))));
        into.add(new Form(Texts.of("convert.imagebyte"), Numbers.grouped(lba * sectorSize)));
        if (cylinder <= 1023) {
            byte[] packed = {(byte) head, (byte) (sector | cylinder >> 2 & 0xC0), (byte) cylinder};
            into.add(new Form(Texts.of("convert.chs.packed"), HexFormat.ofDelimiter(" ").withUpperCase().formatHex(packed)));
        }
    }

    private static void size(List<Form> into, BigInteger bytes, int sectorSize) {
        into.add(new Form(Texts.of("convert.bytecount"), group(bytes) + "  =  0x" + bytes.toString(16).toUpperCase(Locale.ROOT)));
        scaled(into, bytes);
        for (int size : sectorSize == 512 || sectorSize == 4096 ? new int[] {512, 4096} : new int[] {512, 4096, sectorSize}) {
            BigInteger[] parts = bytes.divideAndRemainder(BigInteger.valueOf(size));
            into.add(new Form(Texts.of("convert.sectors", Integer.toString(size)), group(parts[0]) + (parts[1].signum() == 0 ? "" : Texts.of("convert.rest", group(parts[1])))));
        }
    }

    private static void scaled(List<Form> into, BigInteger bytes) {
        if (bytes.bitLength() <= 9) {
            return;
        }
        String[] units = {"B", "k", "M", "G", "T", "P"};
        StringBuilder decimal = new StringBuilder();
        StringBuilder binary = new StringBuilder();
        for (int power = 1; power <= 5; power++) {
            BigDecimal d = new BigDecimal(bytes).divide(BigDecimal.valueOf(1000).pow(power), 3, RoundingMode.HALF_UP).stripTrailingZeros();
            BigDecimal b = new BigDecimal(bytes).divide(BigDecimal.valueOf(1024).pow(power), 3, RoundingMode.HALF_UP).stripTrailingZeros();
            if (d.compareTo(new BigDecimal("0.1")) >= 0 && d.compareTo(new BigDecimal("100000")) < 0) {
                decimal.append(decimal.isEmpty() ? "" : "  =  ").append(d.toPlainString()).append(' ').append(units[power]).append('B');
                binary.append(binary.isEmpty() ? "" : "  =  ").append(b.toPlainString()).append(' ')
                        .append(units[power].toUpperCase(Locale.ROOT)).append("iB");
            }
        }
        if (!decimal.isEmpty()) {
            into.add(new Form(Texts.of("convert.decimal"), decimal.toString()));
            into.add(new Form(Texts.of("convert.binary"), binary.toString()));
        }
    }

    private static void number(List<Form> into, BigInteger number, int sectorSize, ZoneId zone) {
        into.add(new Form(Texts.of("convert.number"), group(number) + (number.signum() < 0 ? "" : "  =  0x" + number.toString(16).toUpperCase(Locale.ROOT))));
        if (number.signum() < 0) {
            return;
        }
        if (number.bitLength() <= 53) {
            long lba = number.longValue();
            into.add(new Form(Texts.of("convert.aslba"), Texts.of("convert.aslba.text", group(number.multiply(BigInteger.valueOf(sectorSize))), chs(lba))));
            into.add(new Form(Texts.of("convert.asbyte"), "LBA " + Numbers.grouped(lba / sectorSize) + ", byte " + lba % sectorSize));
        }
        scaled(into, number);
        if (number.bitLength() > 3) {
            Moments.guesses(into, number, zone);
        }
    }

    private static String chs(long lba) {
        return Numbers.grouped(lba / (HEADS * SECTORS)) + "/" + lba / SECTORS % HEADS + "/" + (lba % SECTORS + 1);
    }

    private static String group(BigInteger number) {
        return Numbers.grouped(number.toString(), Numbers.THIN);
    }

    /** Other forms of a decoded value than those the spec asks for: local time, the other order of an id, hex or decimal. */
    public static List<Form> of(FieldNode field, ZoneId zone) {
        List<Form> forms = new ArrayList<>();
        if (field.raw() instanceof Long raw) {
            Moments.stored(field.unit(), raw).ifPresent(moment -> Moments.shown(forms, Texts.of("convert.moment"), moment, zone));
            if (forms.isEmpty() && raw > 9 && field.bits() < 0) {
                forms.add(new Form(Texts.of("convert.number"), Numbers.grouped(raw) + "  =  0x" + Numbers.hex(raw, 1)));
            }
            if (field.link() != null && field.link().kind().equals("lba") && raw > 0 && raw < 1L << 53) {
                forms.add(new Form(Texts.of("convert.chs"), chs(raw)));
            }
        } else if (field.raw() instanceof byte[] bytes && bytes.length == 16 && field.unit() != null
                && (field.unit().startsWith("guid") || field.unit().equals("uuid"))) {
            forms.add(new Form(Texts.of("convert.id.other"), Ids.text(field.unit().equals("guid") ? bytes : Ids.swapped(bytes))));
        }
        return forms;
    }
}
