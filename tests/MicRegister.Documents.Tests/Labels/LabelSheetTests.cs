using System.Text;
using System.Text.RegularExpressions;
using MicRegister.Documents.Drawings;
using MicRegister.Documents.Labels;
using MicRegister.Register.Labels;

namespace MicRegister.Documents.Tests.Labels;

public sealed class LabelSheetTests
{
    private const string Address = "HTTPS://REGISTER.LAN/L/";

    public static TheoryData<string> Layouts => [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "labels"), "*.layout").Select(f => Path.GetFileNameWithoutExtension(f)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Layouts))]
    public void Every_layout_holds_a_small_code_that_a_phone_reads(string name)
    {
        var layout = Layout(name);

        Assert.InRange(LabelSheet.Version(layout, Address), 1, 2);
        Assert.Null(LabelSheet.Warning(layout, Address));
        // Nothing is printed outside of its label, and the code is as large as the layout says, to 0.05 mm.
        var page = Assert.Single(LabelSheet.Pages(layout, [Content(1)], Address));
        var modules = page.Shapes.OfType<Line>().Where(l => l.Role == Role.Code).SelectMany(l => l.Points).ToList();
        Assert.Equal(layout.CodeMm, modules.Max(p => p.Y) - modules.Min(p => p.Y), 0.05);
        Assert.All(modules, p => Assert.True(p.X >= layout.LeftMm && p.X <= layout.LeftMm + layout.WidthMm && p.Y >= layout.TopMm && p.Y <= layout.TopMm + layout.HeightMm));
        Assert.Contains(page.Shapes.OfType<Label>(), l => l.Text == Content(1).Code.Spoken);
    }

    [Theory]
    [MemberData(nameof(Layouts))]
    public async Task A_printed_label_is_read_at_each_resolution_that_its_layout_names(string name)
    {
        var layout = Layout(name);
        var folder = Directory.CreateTempSubdirectory("labels-").FullName;
        try
        {
            var pdf = Path.Combine(folder, "label.pdf");
            await using (var stream = File.Create(pdf)) PdfPainter.Paint(LabelSheet.Pages(layout, [Content(7)], Address), stream);
            foreach (var dpi in layout.DotsPerInch)
            {
                // The label alone, as it is cut.
                string Dots(double mm) => Math.Round(mm * dpi / 25.4).ToString(System.Globalization.CultureInfo.InvariantCulture);
                await Run("pdftoppm", "-r", dpi.ToString(System.Globalization.CultureInfo.InvariantCulture), "-gray", "-png", "-x", Dots(layout.LeftMm), "-y", Dots(layout.TopMm), "-W", Dots(layout.WidthMm), "-H", Dots(layout.HeightMm), pdf, Path.Combine(folder, "label"));

                var read = await Run("zbarimg", "-q", "--raw", Directory.GetFiles(folder, "label*.png").Single());

                Assert.Equal(Enumerable.Repeat((layout.IsAddress ? Address : "") + Content(7).Code, layout.Codes), read.Split('\n', StringSplitOptions.RemoveEmptyEntries));
                foreach (var image in Directory.GetFiles(folder, "*.png")) File.Delete(image);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<string> Run(string program, params string[] args)
    {
        var info = new System.Diagnostics.ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var arg in args) info.ArgumentList.Add(arg);
        using var process = System.Diagnostics.Process.Start(info)!;
        var errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var text = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        await errors;
        return text;
    }

    [Fact]
    public void A_used_sheet_goes_on_where_it_is_free()
    {
        var layout = Layout("sheet-3x8");

        var pages = LabelSheet.Pages(layout, [.. Enumerable.Range(1, 25).Select(Content)], Address, first: 23);

        Assert.Equal(2, pages.Count);
        var first = pages[0].Shapes.OfType<Label>().Where(l => l.Text.Length == 11 && l.Text[4] == ' ').ToList();
        Assert.Equal(2, first.Count); // the last two places of the sheet
        Assert.All(first, l => Assert.True(l.Y > 7 * 37));
        Assert.Throws<ArgumentException>(() => LabelSheet.Pages(layout, [Content(1)], Address, first: 25));
        Assert.Throws<ArgumentException>(() => LabelSheet.Pages(layout, [Content(1)], "https://register.lan/l/"));
    }

    [Fact]
    public void A_page_of_pdf_has_the_size_of_its_sheet()
    {
        using var content = new MemoryStream();
        PdfPainter.Paint(LabelSheet.Pages(Layout("sheet-3x8"), [.. Enumerable.Range(1, 30).Select(Content)], Address), content);

        var boxes = Regex.Matches(Encoding.Latin1.GetString(content.ToArray()), @"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)");
        Assert.Equal(2, boxes.Count);
        // 210 mm = 595.276 points, 297 mm = 841.890 points (72 an inch); 0.05 mm = 0.14 points.
        Assert.Equal(595.276, double.Parse(boxes[0].Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture), 0.14);
        Assert.Equal(841.890, double.Parse(boxes[0].Groups[2].Value, System.Globalization.CultureInfo.InvariantCulture), 0.14);
    }

    [Theory]
    [InlineData("width = wide", "line 1: width 'wide'")]
    [InlineData("page-width = 100\npage-height = 50\nwidth = 60\nheight = 20\ncolumns = 2\ncode = 10", "2 × 1 labels of 60 × 20 mm do not fit")]
    [InlineData("page-width = 100\npage-height = 50\nwidth = 60\nheight = 20\ncode = 30", "a code of 30 mm does not fit")]
    [InlineData("page-width = 100\npage-height = 50\nwidth = 60\nheight = 20\ncode = 10\ncolour = red", "'colour' is not known")]
    [InlineData("page-width = 100\npage-height = 50\nwidth = 60\nheight = 20\ncode = 10\nfields = kind, due", "field 'due'")]
    [InlineData("page-width = 100\npage-height = 50\nwidth = 60\nheight = 20\ncode = 10\nlevel = X", "allowed are L, M, Q, H")]
    [InlineData("nonsense", "is no 'key = value'")]
    public void What_is_no_layout_is_said_with_line_and_value(string text, string says)
    {
        // A height that is asked for first is there where the test is of another line.
        var whole = text.StartsWith("width = wide", StringComparison.Ordinal) ? text + "\npage-width = 10\npage-height = 10\nheight = 5\ncode = 4" : text;
        Assert.Contains(says, Assert.Throws<FormatException>(() => LabelLayout.Read(whole, "own")).Message, StringComparison.Ordinal);
    }

    private static LabelLayout Layout(string name) => LabelLayout.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "labels", name + ".layout")), name);

    private static LabelContent Content(int seed)
    {
        var random = new Random(seed);
        return new(LabelCode.Draw(n =>
        {
            var bytes = new byte[n];
            random.NextBytes(bytes);
            return bytes;
        }), new Dictionary<string, string> { ["kind"] = "Microphone", ["serial"] = "41001", ["station"] = "S01", ["campaign"] = "Quillmere 26" });
    }
}
