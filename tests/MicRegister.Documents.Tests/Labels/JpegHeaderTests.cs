using MicRegister.Documents.Labels;

namespace MicRegister.Documents.Tests.Labels;

/// <summary>
/// Headers made byte by byte, laid out as ITU-T T.81 (1992), B.1 and B.2, says (from memory): a picture that is unpacked line by line is
/// told from one that is held whole.
/// </summary>
public sealed class JpegHeaderTests
{
    private const int Baseline = 0xC0;

    [Theory]
    [InlineData(Baseline, 1, 1, false)]
    [InlineData(Baseline, 3, 3, false)]
    [InlineData(Baseline, 4, 4, false)]
    [InlineData(0xC1, 3, 3, false)] // sequential, with more tables
    [InlineData(Baseline, 3, 1, true)] // one colour after the other
    [InlineData(Baseline, 3, 2, true)]
    [InlineData(Baseline, 4, 3, true)]
    [InlineData(0xC1, 3, 1, true)]
    [InlineData(0xC2, 3, 3, true)] // progressive
    [InlineData(0xC3, 3, 3, true)] // without loss
    [InlineData(0xC9, 3, 3, true)] // with arithmetic coding
    public void A_picture_is_held_whole_unless_its_first_scan_has_all_components_of_a_sequential_frame(
        int frame, int components, int scanned, bool isHeldWhole) =>
        Assert.Equal(isHeldWhole, JpegHeader.IsHeldWhole(Header(Frame(frame, components), Scan(scanned))));

    [Fact]
    public void Tables_remarks_and_padding_are_passed_over()
    {
        byte[] application = Segment(0xE0, [1, 2, 3]), tables = Segment(0xC4, [0, 1, 2]), coding = Segment(0xCC, [0, 1]);

        Assert.False(JpegHeader.IsHeldWhole(Header(application, tables, [0xFF, 0xFF], Frame(Baseline, 3), coding, [0xFF], Scan(3))));
        Assert.True(JpegHeader.IsHeldWhole(Header(application, tables, [0xFF, 0xFF], Frame(Baseline, 3), coding, [0xFF], Scan(1))));
    }

    // Some decoders skip such a marker, others read a length behind it: whichever they do, they may see another frame than was looked at.
    [Theory]
    [InlineData(0xD0)] // a restart
    [InlineData(0xD7)]
    [InlineData(0xD8)] // another begin
    [InlineData(0xD9)] // the end
    [InlineData(0x01)]
    [InlineData(0xBF)]
    public void A_marker_without_a_length_before_the_first_scan_is_not_trusted(int marker)
    {
        foreach (var stray in new byte[][] { [0xFF, (byte)marker], Segment(marker, []) })
        {
            Assert.True(JpegHeader.IsHeldWhole(Header(stray, Frame(Baseline, 3), Scan(3))));
            Assert.True(JpegHeader.IsHeldWhole(Header(Frame(Baseline, 3), stray, Scan(3))));
        }
    }

    [Theory]
    [InlineData(3, 3, 3)]
    [InlineData(3, 1, 1)]
    [InlineData(1, 3, 3)]
    public void Two_frames_are_not_trusted(int first, int second, int scanned) =>
        Assert.True(JpegHeader.IsHeldWhole(Header(Frame(Baseline, first), Frame(Baseline, second), Scan(scanned))));

    [Fact]
    public void A_header_that_ends_too_soon_is_not_trusted()
    {
        var whole = Header(Segment(0xE0, [1, 2, 3]), Frame(Baseline, 3), Scan(3));

        Assert.False(JpegHeader.IsHeldWhole(whole));
        Assert.All(Enumerable.Range(0, whole.Length), length => Assert.True(JpegHeader.IsHeldWhole(whole.AsSpan(0, length))));
    }

    [Fact]
    public void A_scan_without_a_frame_and_parts_that_are_too_short_are_not_trusted()
    {
        Assert.True(JpegHeader.IsHeldWhole(Header(Scan(1))));
        // A frame that ends before its number of components: the byte behind it would be taken for 255.
        Assert.True(JpegHeader.IsHeldWhole(Header(Segment(Baseline, [8, 0, 1, 0, 1]), Scan(255))));
        // A scan that ends before its own: the byte behind it would be taken for 9.
        Assert.True(JpegHeader.IsHeldWhole(Header(Frame(Baseline, 1), Segment(0xDA, []), [9])));
    }

    private static byte[] Header(params byte[][] parts) => [0xFF, 0xD8, .. parts.SelectMany(p => p)];

    // 8 bits, 4000 lines of 4800, then number, sampling and table of each component.
    private static byte[] Frame(int marker, int components) => Segment(
        marker,
        [8, 0x0F, 0xA0, 0x12, 0xC0, (byte)components, .. Enumerable.Range(1, components).SelectMany(c => new byte[] { (byte)c, 0x11, 0 })]);

    // Number and tables of each component, then what a sequential scan always says.
    private static byte[] Scan(int components) => Segment(
        0xDA, [(byte)components, .. Enumerable.Range(1, components).SelectMany(c => new byte[] { (byte)c, 0 }), 0, 63, 0]);

    // The length counts its own two bytes.
    private static byte[] Segment(int marker, byte[] content)
    {
        var length = content.Length + 2;
        return [0xFF, (byte)marker, (byte)(length >> 8), (byte)(length & 0xFF), .. content];
    }
}
