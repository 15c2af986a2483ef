using System.Diagnostics;
using MicRegister.Documents.Drawings;
using MicRegister.Documents.Labels;
using MicRegister.Register.Labels;

namespace MicRegister.Benchmarks;

/// <summary>Codes of 1,000 labels beside libqrencode, and a file of 1,000 labels.</summary>
internal static class LabelBenchmark
{
    private const int Labels = 1000;
    private const string Address = "HTTPS://REGISTER.LAN/L/";

    public static void Run(string work)
    {
        var random = new Random(18004);
        List<LabelContent> labels = [.. Enumerable.Range(0, Labels).Select(i => new LabelContent(LabelCode.Draw(n =>
        {
            var bytes = new byte[n];
            random.NextBytes(bytes);
            return bytes;
        }), new Dictionary<string, string> { ["kind"] = "Microphone", ["model"] = "Half-inch", ["serial"] = (41000 + i).ToString(System.Globalization.CultureInfo.InvariantCulture), ["owner"] = "House" }))];
        var file = Path.Combine(work, "codes.txt");
        File.WriteAllLines(file, labels.Select(l => Address + l.Code));

        var dark = 0L;
        var ours = Measure.Median(9, () =>
        {
            dark = 0;
            foreach (var label in labels) dark += LabelSheet.DarkModules(Address + label.Code, 'M');
        });
        var program = Path.Combine(work, "qr");
        var limit = Yardstick.Run("gcc", "-O3", "-march=native", "-o", program, Path.Combine(AppContext.BaseDirectory, "Yardsticks", "qr.c"), "-lqrencode") is null ? null : Yardstick.Run(program, file, "9");
        var figure = FormattableString.Invariant($"{1e6 * ours / Labels:0} µs a code");
        if (limit is not null)
        {
            // Both may choose another mask; about half of the modules are dark either way.
            if (Math.Abs(limit[1] - dark) > 0.1 * dark || limit[2] != Labels) throw new InvalidOperationException($"The codes differ: {dark} dark modules here, {limit[1]} there.");
            Measure.Line("matrix of a label's code, version 2", figure, FormattableString.Invariant($"{ours / limit[0]:0.00} × libqrencode ({1e6 * limit[0] / Labels:0} µs)"), "≤ 2 ×");
        }
        else
        {
            Measure.Line("matrix of a label's code, version 2", figure, "libqrencode is not installed", "≤ 2 ×");
        }
        var layout = LabelLayout.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "labels", "sheet-3x8.layout")), "sheet-3x8");
        var start = Stopwatch.GetTimestamp();
        using var content = new MemoryStream();
        PdfPainter.Paint(LabelSheet.Pages(layout, labels, Address), content);
        Measure.Line("1,000 labels as PDF", FormattableString.Invariant($"{Stopwatch.GetElapsedTime(start).TotalSeconds:0.0} s, {content.Length / 1000:0} kB"), "42 pages", "≤ 30 s");
    }
}
