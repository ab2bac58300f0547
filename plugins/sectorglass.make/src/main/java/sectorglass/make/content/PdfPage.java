package sectorglass.make.content;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.SplitMix64;

/** A PDF document (ISO 32000-1) of one page and an exact size; spaces at the end of its content stream fill it up. */
final class PdfPage {

    private PdfPage() {
    }

    static byte[] of(int bytes, long seed) {
        SplitMix64 numbers = new SplitMix64(seed);
        StringBuilder page = new StringBuilder("BT /F1 18 Tf 60 780 Td (Invented document) Tj ET\n");
        for (int i = 0; i < 6; i++) {
            page.append(60 + numbers.below(300)).append(' ').append(100 + numbers.below(500)).append(' ')
                    .append(20 + numbers.below(150)).append(' ').append(20 + numbers.below(150)).append(" re S\n");
        }
        int bare = document(page.toString()).length;
        byte[] document = document(page + " ".repeat(bytes - bare));
        if (document.length != bytes) {
            throw new IllegalStateException("document has " + document.length + " bytes, wanted " + bytes);
        }
        return document;
    }

    private static byte[] document(String content) {
        String[] objects = {
            "<< /Type /Catalog /Pages 2 0 R >>",
            "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
            "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>",
            "<< /Length " + ten(content.length()) + " >>\nstream\n" + content + "\nendstream",
            "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"};
        StringBuilder text = new StringBuilder("%PDF-1.4\n");
        List<Integer> offsets = new ArrayList<>();
        for (int i = 0; i < objects.length; i++) {
            offsets.add(text.length());
            text.append(i + 1).append(" 0 obj\n").append(objects[i]).append("\nendobj\n");
        }
        int table = text.length();
        text.append("xref\n0 6\n0000000000 65535 f \n");
        for (int offset : offsets) {
            text.append(ten(offset)).append(" 00000 n \n");
        }
        text.append("trailer\n<< /Size 6 /Root 1 0 R >>\nstartxref\n").append(ten(table)).append("\n%%EOF\n");
        return text.toString().getBytes(StandardCharsets.US_ASCII);
    }

    private static String ten(int number) {
        String digits = Integer.toString(number);
        return "0".repeat(10 - digits.length()) + digits;
    }
}
