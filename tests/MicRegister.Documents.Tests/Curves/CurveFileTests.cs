using System.Text;
using MicRegister.Documents.Curves;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Tests.Curves;

/// <summary>What headers, marks and comments of curve files mean, and what is asked rather than guessed.</summary>
public sealed class CurveFileTests
{
    [Fact]
    public void A_phase_is_no_uncertainty()
    {
        var reading = Read("Frequency Hz,Level dB,Phase deg\n250,0.1,0\n500,0.2,12\n1000,0.3,50\n");

        Assert.Equal([new(250, 0.1, null), new(500, 0.2, null), new(1000, 0.3, null)], Assert.Single(reading.Curves).Curve.Points);
        Assert.Contains("The phase in column 3 (Phase deg) is not kept.", reading.Notes);
    }

    // U of 0.3 dB with k = 3 is 0.2 dB with k = 2 (GUM, 6.2.1: U = k · u).
    [Theory]
    [InlineData("The coverage factor is 3.\n", "")]
    [InlineData("# expanded uncertainty, coverage factor 3\n", "")]
    [InlineData("", "# k = 3\n")]
    public void A_coverage_factor_in_words_counts_above_and_below_the_table(string above, string below) => Assert.Equal(
        0.2, Read($"{above}Hz;Level dB;U dB\n250;0;0.3\n1000;0.1;0.3\n{below}").Curves[0].Curve.Points[0].ExpandedDb!.Value, 1e-12);

    [Fact]
    public void An_uncertainty_of_0_is_none_that_is_known()
    {
        var reading = Read("Hz;Level dB;U dB\n250;0;0\n1000;0.1;0.2\n");

        Assert.Equal([null, 0.2], reading.Curves[0].Curve.Points.Select(p => p.ExpandedDb));
        Assert.Contains(reading.Notes, n => n.EndsWith("is 0 in 1 row: it is not known there.", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Correction to be added")]
    [InlineData("Correction [dB]")]
    [InlineData("Korrektur, dB")]
    [InlineData("Add to reading dB")]
    public void A_correction_is_asked_and_then_kept_as_a_response_with_its_sign_turned(string header)
    {
        var text = $"Frequency [Hz];{header}\n250;0\n1000;-0.2\n8000;1.5\n";
        var asked = Read(text);

        var question = Assert.Single(asked.Questions);
        Assert.Equal([2], question.Columns);
        Assert.Contains("correction", question.Text, StringComparison.Ordinal);
        Assert.Contains("correction", question.Choices.Select(c => c.Key));
        Assert.Empty(asked.Curves);
        var told = Read(text, "2=correction");
        Assert.Equal([0, 0.2, -1.5], Assert.Single(told.Curves).Curve.Points.Select(p => p.LevelDb));
        Assert.Contains(told.Notes, n => n.Contains("with the sign turned", StringComparison.Ordinal));
        Assert.False(told.IsPlain);
    }

    [Theory]
    [InlineData("# Corrections to be added to readings\nFrequency [Hz];Level [dB]\n250;0\n1000;-0.2\n")]
    [InlineData("Frequency [Hz];Level [dB]\n250;0\n1000;-0.2\n# Corrections to be added to the reading\n")]
    [InlineData("Frequency [Hz];Level [dB]\n250;0\n1000;-0.2\nCorrections to be added to the reading\n")]
    [InlineData("Free-field correction;type A\nFrequency [Hz];Level [dB]\n250;0\n1000;-0.2\n")]
    public void A_text_above_that_speaks_of_corrections_makes_a_level_a_question(string text) =>
        Assert.Contains("the text beside the table speaks of a correction", Assert.Single(Read(text).Questions).Text,
            StringComparison.Ordinal);

    // 0.0500 and 0.0501 V/Pa are -26.0206 and -26.0033 dB re 1 V/Pa, recomputed with Python 3.11: 20*log10(x).
    [Theory]
    [InlineData("Hz;dB re 1 V/Pa\n250;-26.0206\n1000;-26.0033\n", -26.0206)]
    [InlineData("Hz;Sensitivity [mV/Pa]\n250;50\n1000;50.1\n", -26.0206)]
    [InlineData("Hz;Sensitivity [V/Pa]\n250;0.05\n1000;0.0501\n", -26.0206)]
    [InlineData("Hz;Level dB(V/Pa)\n250;-26.0206\n1000;-26.0033\n", -26.0206)]
    public void A_sensitivity_gives_the_relative_curve_and_itself(string text, double level)
    {
        var reading = Read(text);
        var curve = Assert.Single(reading.Curves);

        Assert.Equal((level, 250.0), (curve.SensitivityDb!.Value, curve.AtHz!.Value), new Near(1e-4));
        Assert.Equal(0, curve.Curve.At(250)!.Value, 1e-9);
        Assert.Equal(0.0173, curve.Curve.At(1000)!.Value, 1e-4);
        Assert.False(reading.IsPlain);
        Assert.Contains(reading.Notes, n =>
            n.Contains("give levels relative to 250 Hz, where it is −26.021 dB re 1 V/Pa", StringComparison.Ordinal));
        // What was stored so by an earlier release is relative too.
        Assert.Equal(0, CurveFile.Read(Stream(text), "stored").At(250)!.Value, 1e-9);
    }

    [Fact]
    public void A_sensitivity_that_misses_the_frequency_of_the_certificate_is_refused()
    {
        var answers = new CurveAnswers(new Dictionary<int, ColumnMeaning>(), ReferenceHz: 1000);
        var why = Assert.Throws<SheetException>(() => CurveFile.Read(Stream("Hz;mV/Pa\n250;50\n500;51\n"), "c.csv", answers)).Message;

        Assert.Contains("none at 1000 Hz", why, StringComparison.Ordinal);
    }

    [Fact]
    public void Levels_far_from_zero_are_asked() =>
        Assert.Contains("lie about 26.0 dB from 0", Assert.Single(Read("Hz;Level [dB]\n250;-26\n500;-26\n1000;-26.1\n").Questions).Text,
            StringComparison.Ordinal);

    [Fact]
    public void A_comma_that_may_part_thousands_is_asked_and_both_answers_are_read()
    {
        const string Text = "Hz;dB\n1,250;0,1\n1,600;0,2\n2,000;0,1\n";

        var question = Assert.Single(Read(Text).Questions);
        Assert.Equal(("marks", 0), (question.Asks, question.Columns.Count));
        Assert.Contains("'1,250' in row 2 1.25 or 1250", question.Text, StringComparison.Ordinal);
        Assert.Equal([1.25, 1.6, 2], Frequencies(Read(Text, NumberMarks.Decimal)));
        Assert.Equal([1250.0, 1600, 2000], Frequencies(Read(Text, NumberMarks.Thousands)));
    }

    [Theory]
    [InlineData("Hz;dB\n800;0,1\n1,000;0,1\n1,250;0,2\n", "800 1000 1250")] // only so they rise
    [InlineData("Hz;dB\n800;0.1\n1,000;0.1\n1,250;0.2\n", "800 1000 1250")]
    [InlineData("Hz;dB\n800;0,1\n1.000;0,1\n1.250;0,2\n", "800 1000 1250")]
    [InlineData("kHz;dB\n1,000;0,1\n1,250;0,2\n", "1000 1250")] // 1000 kHz is beyond every microphone
    [InlineData("Hz;dB\n1'000;0.1\n10'000;0.1\n", "1000 10000")]
    [InlineData("Hz;dB\n100.000;0.1\n125.000;0.1\n", "100 125")] // 100 kHz could be, 125 kHz too: both lie below 200 kHz, so see below
    [InlineData("Hz;dB\n31,5;0,1\n1000,0;0,1\n", "31.5 1000")]
    [InlineData("Hz,dB\n20.000,0.1\n100.000,0.1\n1000.000,0.1\n", "20 100 1000")]
    [InlineData("Hz;dB\n2.5e2;0.1\n1e3;0.1\n", "250 1000")]
    public void Marks_are_decided_over_the_whole_file(string text, string hz)
    {
        var reading = Read(text);

        if (reading.IsAsking) Assert.Contains("125.000", text, StringComparison.Ordinal);
        else Assert.Equal(hz.Split(' ').Select(double.Parse), Frequencies(reading));
    }

    [Theory]
    [InlineData("250,0.1\n1000,0.2\n", 1)] // a level or a correction: nothing says it
    [InlineData("250,0.1,0.05\n1000,0.2,0.06\n", 2)]
    [InlineData("0.25,0.1\n1,0.2\n", 2)] // Hz or kHz
    [InlineData("f;L [dB]\n0.25;0.1\n1;0.2\n", 1)]
    [InlineData("Hz;Response\n250;0.1\n1000;0.2\n", 1)]
    [InlineData("Hz;dB;Tolerance dB\n250;0.1;0.5\n1000;0.2;0.7\n", 1)]
    [InlineData("Hz;dB;Previous level dB\n250;0.1;0.5\n1000;0.2;0.7\n", 1)]
    [InlineData("Hz;dB;u [dB]\n250;0.1;0.05\n", 1)]
    [InlineData("Hz;mV/Pa;U\n250;50;0.5\n", 1)]
    [InlineData("Hz;Actuator dB\n250;0.1\n", 1)]
    [InlineData("Hz;Pressure dB;Free field dB\n250;0.1;0\n", 1)]
    [InlineData("Hz;Level dB;Level dB\n250;0.1;0\n", 1)]
    [InlineData("Nominal Hz;Exact Hz;dB\n250;251.19;0\n500;501.19;0\n", 1)]
    [InlineData("Hz;Level dB re 20 µPa\n250;94\n", 1)]
    [InlineData("Hz;U [dB]\n250;0.1\n", 1)]
    [InlineData("# standard uncertainties\nHz;dB;U\n250;0.1;0.05\n", 1)]
    [InlineData("# k=2 below, k=3 above 10 kHz\nHz;dB;U\n250;0.1;0.05\n", 1)]
    public void What_a_file_leaves_open_is_asked(string text, int questions)
    {
        var reading = Read(text);

        Assert.Equal((questions, 0), (reading.Questions.Count, reading.Curves.Count));
        Assert.All(reading.Questions, q => Assert.NotEmpty(q.Choices));
    }

    // U is kept with k = 2: 0.06 at k = 3 is 0.04, 0.02 at k = 1 is 0.04; 0.5 % is 20 lg 1.005 = 0.04332 dB (Python 3.11).
    [Theory]
    [InlineData("Hz;dB;U (k=3)\n250;0;0.06\n", 0.04)]
    [InlineData("Hz;dB;U [dB], k = 2\n250;0;0.04\n", 0.04)]
    [InlineData("Hz;dB;Standard uncertainty [dB]\n250;0;0.02\n", 0.04)]
    [InlineData("Hz;dB;U;k\n250;0;0.06;3\n", 0.04)]
    [InlineData("Expanded uncertainties with k=3\nHz;dB;U [dB]\n250;0;0.06\n", 0.04)]
    [InlineData("Hz;dB;U95 [dB]\n250;0;0.04\n", 0.04)]
    [InlineData("Hz;dB;U [%]\n250;0;0.5\n", 0.04332)]
    [InlineData("Hz;mV/Pa;U [mV/Pa]\n250;50;0.25\n", 0.04332)]
    [InlineData("Hz;Pegel [dB];Erweiterte Messunsicherheit [dB]\n250;0;0,04\n", 0.04)]
    public void An_uncertainty_is_kept_with_factor_two(string text, double u) =>
        Assert.Equal(u, Assert.Single(Assert.Single(Read(text).Curves).Curve.Points).ExpandedDb!.Value, 1e-5);

    [Theory]
    [InlineData("u:1", 0.1)]
    [InlineData("u", 0.05)]
    [InlineData("u-percent", 0.00434)] // 20 lg 1.0005, Python 3.11
    public void An_answer_counts_for_more_than_a_header(string answer, double u)
    {
        var reading = Read("Hz;dB;u [dB]\n250;0.1;0.05\n", "3=" + answer);
        Assert.Equal(u, reading.Curves[0].Curve.Points[0].ExpandedDb!.Value, 1e-5);
    }

    [Theory]
    [InlineData("250 0.1\n1000 0.2\n", "Hz dB\n")]
    [InlineData("  250   0.1\n 1000   0.2\n", "Frequency (Hz)   Level (dB)\n")]
    [InlineData("250,0.1\n1000,0.2\n", "\"measured on 2 May, in the small room\"\n// serial 4711\nHz,dB\n")]
    [InlineData("250;0,1\n1000;0,2\n", "; laboratory A\n;k = 2\nSerial;4711\nFrequency;Level\n[Hz];[dB]\n\n")]
    [InlineData("250|0.1\n1000|0.2\n", "f [Hz]|L [dB]\n-----|-----\n")]
    [InlineData("250\t0.1\n1000\t0.2\n", "# Frequency [Hz]\tResponse [dB]\n")]
    [InlineData("0.25 kHz;0.1 dB\n1 kHz;0.2 dB\n", "f [Hz];L [dB]\n")]
    [InlineData("\"250\",\"0,1\"\n\"1000\",\"0,2\"\n", "\"Hz\",\"dB\"\n")]
    [InlineData("250;0.1\n1000;0.2\nend of data\n", "sep=;\nHz;dB rel. 250 Hz\n")]
    [InlineData("0.1;250\n0.2;1000\n", "Level [dB];Frequency [Hz]\n")]
    [InlineData("250;\u22120.1\n1000;0.2\n", "Hz;dB\n", -0.1)]
    [InlineData("250;0.1;\n1000;0.2;\n", "Hz;dB;\n")]
    public void Comments_heads_and_separators_are_read(string figures, string head, double first = 0.1)
    {
        var reading = Read(head + figures);

        Assert.Empty(reading.Questions);
        Assert.Equal([new(250, first, null), new(1000, 0.2, null)], Assert.Single(reading.Curves).Curve.Points);
    }

    [Theory]
    [InlineData("utf-8", true)]
    [InlineData("utf-16", true)]
    [InlineData("utf-16BE", true)]
    [InlineData("utf-16", false)]
    [InlineData("latin1", false)]
    public void Encodings_are_found(string name, bool hasMark)
    {
        var encoding = Encoding.GetEncoding(name);
        var bytes = encoding.GetBytes("Frequenz [Hz];Übertragungsmaß [dB] 0°\n250;0,1\n500;0,2\n");
        var reading = CurveFile.Read(new MemoryStream([.. hasMark ? encoding.GetPreamble() : [], .. bytes]), "c.csv", CurveAnswers.None);

        Assert.Equal(0.0, Assert.Single(reading.Curves).AngleDeg);
    }

    [Fact]
    public void Gaps_and_missing_figures_are_said_with_row_and_column()
    {
        var reading = Read("Hz;dB;U\n250;0.1;0.05\n500;NaN;0.05\n1000;0.2;\n8000;0.3;n/a\n16000;;0.1\n");

        Assert.Equal([250.0, 1000, 8000], Frequencies(reading));
        Assert.Contains("No level in column 2 (dB), row 3 ('NaN'), row 6 (''): it is left out.", reading.Notes);
        Assert.Contains("No uncertainty in column 3 (U), row 4 (''), row 5 ('n/a'): it is not known there.", reading.Notes);
        Assert.Contains(reading.Notes, n => n.Contains("from 250 to 1000 Hz, from 1000 to 8000 Hz", StringComparison.Ordinal));
        Assert.Contains("No coverage factor is stated for column 3 (U): k = 2 is taken.", reading.Notes);
    }

    [Theory]
    [InlineData("Frequency [Hz];41001 [dB];41002 [dB];SN 99999 [dB]\n250;0.1;0.2;0.3\n500;0;0;0\n")]
    [InlineData(";41001;41002;SN 99999\nHz;dB;dB;dB\n250;0.1;0.2;0.3\n500;0;0;0\n")]
    [InlineData("Serial;41001;41002;S/N: 99999\nFrequency [Hz];Level [dB];Level [dB];Level [dB]\n250;0.1;0.2;0.3\n500;0;0;0\n")]
    public void A_column_a_device_gives_a_curve_for_each_and_says_who_is_not_known(string text)
    {
        var reading = CurveFile.Read(Stream(text), "c.csv", Known());

        Assert.Equal([("D1", "41001"), ("D2", "41002"), (null, "99999")], reading.Curves.Select(c => (c.Device, c.Serial!)));
        Assert.Equal([0.1, 0.2, 0.3], reading.Curves.Select(c => c.Curve.At(250)!.Value));
        Assert.Contains(reading.Notes, n => n.StartsWith("No device is known as 99999: column 4", StringComparison.Ordinal));
        Assert.False(reading.IsPlain);
        Assert.Contains("several devices", Assert.Throws<SheetException>(() => CurveFile.Read(Stream(Named(text)), "c.csv")).Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Devices_without_a_unit_are_one_question_and_a_nameless_column_is_asked()
    {
        const string Text = "Frequency [Hz];41001;41002\n250;0.1;0.2\n500;0;0\n";
        var question = Assert.Single(CurveFile.Read(Stream(Text), "c.csv", Known()).Questions);

        Assert.Equal("columns 2-3", question.Asks);
        var told = CurveFile.Read(Stream(Text), "c.csv", Known() with { Columns = CurveAnswers.OfColumns(["2-3=level"]) });
        Assert.Equal(["D1", "D2"], told.Curves.Select(c => c.Device));
        var nameless = CurveFile.Read(Stream("Hz;41001 dB;dB\n250;0.1;0.2\n"), "c.csv", Known());
        Assert.Contains("Other columns name a device", Assert.Single(nameless.Questions).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_angle_may_have_its_own_uncertainty()
    {
        var reading = Read("Hz;0°;U (k=2);30°;U (k=2)\n250;0;0.1;1;0.2\n");

        Assert.Equal([(0.0, 0.1), (30.0, 0.2)], reading.Curves.Select(c => (c.AngleDeg!.Value, c.Curve.Points[0].ExpandedDb!.Value)));
        Assert.Contains("Of which curve", Read("Hz;U;dB 0°;dB 30°;U\n250;1;0;1;0.2\n").Questions[0].Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Hz;Free-field response [dB]", "free-field")]
    [InlineData("Hz;Diffuse field [dB]", "diffuse")]
    [InlineData("Hz;Pressure response [dB]", "pressure")]
    [InlineData("Hz;dB", null)]
    public void The_field_of_a_header_is_told(string head, string? field) =>
        Assert.Equal(field, Assert.Single(Read(head + "\n250;0.1\n").Curves).Field);

    [Fact]
    public void What_the_program_writes_it_reads_back()
    {
        (double?, ResponseCurve)[] curves =
        [
            (0, new([new(31.5, -0.125, 0.1), new(1000, 0, null), new(1250, 1e-7, 0.3)])),
            (90.5, new([new(1000, -1.0 / 3, null), new(20000, -12.5, null)])),
        ];
        var text = CurveText.Write(curves, ["Correction to be added, k=3, from x.csv", "column 2=correction"]);

        Same(curves, CurveFile.ReadByAngle(new MemoryStream(text), "own"));
        Assert.True(CurveFile.Read(new MemoryStream(text), "own", CurveAnswers.None).IsPlain);
        Same([(null, curves[0].Item2)], CurveFile.ReadByAngle(new MemoryStream(CurveText.Write([(null, curves[0].Item2)], [])), "own"));
        Same([(null, new([new(250, -38, null)]))],
            CurveFile.ReadByAngle(new MemoryStream(CurveText.Write([(null, new([new(250, -38, null)]))], [])), "own"));
    }

    [Theory]
    [InlineData("3")]
    [InlineData("3=x")]
    [InlineData("0=u")]
    [InlineData("4-2=u")]
    [InlineData("1-501=u")]
    [InlineData("2=level:181")]
    [InlineData("2=u:0.9")]
    [InlineData("2=hz:3")]
    public void An_answer_that_is_none_is_refused(string answer) => Assert.Throws<FormatException>(() => CurveAnswers.OfColumns([answer]));

    [Fact]
    public void Answers_are_written_as_they_are_read()
    {
        foreach (var key in ColumnMeaning.All.Select(a => a.Key).Concat(["level:30", "u:3", "u-percent:1"]))
            Assert.Equal(key, ColumnMeaning.Parse(key)!.Key);
        Assert.Equal(3, CurveAnswers.OfColumns(["2-4=level"]).Count);
        Assert.Throws<FormatException>(() => CurveAnswers.OfMarks("comma"));
    }

    private static void Same(
        IReadOnlyList<(double? Angle, ResponseCurve Curve)> expected, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> read) =>
        Assert.Equal(expected.SelectMany(c => c.Curve.Points.Select(p => (c.Angle, p))),
            read.SelectMany(c => c.Curve.Points.Select(p => (c.AngleDeg, p))));

    private static string Named(string text) => text.Replace("4100", "SN 4100", StringComparison.Ordinal);

    private static CurveAnswers Known() => CurveAnswers.None with
    {
        DevicesOf = serial => serial switch { "41001" => ["D1"], "41002" => ["D2"], _ => [] },
    };

    private static IEnumerable<double> Frequencies(CurveReading reading) => Assert.Single(reading.Curves).Curve.Points.Select(p => p.Hz);

    private static CurveReading Read(string text, params string[] columns) =>
        CurveFile.Read(Stream(text), "c.csv", new(CurveAnswers.OfColumns(columns)));

    private static CurveReading Read(string text, NumberMarks marks) =>
        CurveFile.Read(Stream(text), "c.csv", CurveAnswers.None with { Marks = marks });

    private static MemoryStream Stream(string text) => new(Encoding.UTF8.GetBytes(text));

    private sealed class Near(double tolerance) : IEqualityComparer<(double, double)>
    {
        public bool Equals((double, double) x, (double, double) y) =>
            Math.Abs(x.Item1 - y.Item1) <= tolerance && Math.Abs(x.Item2 - y.Item2) <= tolerance;

        public int GetHashCode((double, double) obj) => 0;
    }
}
