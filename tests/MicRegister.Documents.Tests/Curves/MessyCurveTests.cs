using System.Globalization;
using MicRegister.Documents.Curves;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Curves;

/// <summary>Files drawn by a seed: what is read without a question is true, and so is what is read once it was answered.</summary>
public sealed class MessyCurveTests
{
    private const int Files = 2000;

    [Theory]
    [InlineData(20260504)]
    [InlineData(7)]
    public void No_file_gives_a_wrong_curve(int seed)
    {
        var files = new MessyCurves(seed);
        var (straight, answered, refused) = (0, 0, 0);
        for (var i = 0; i < Files; i++)
        {
            var file = files.Next();
            var which = $"seed {seed}, file {i}:\n{file.Text}";
            var reading = Reading(file, CurveAnswers.None, out var why);
            if (reading is null)
            {
                refused++;
                continue;
            }
            if (!reading.IsAsking)
            {
                straight++;
                Holds(file, reading, which);
                continue;
            }
            // Who wrote the file answers; then it is read, or still refused, and never asked for ever.
            var told = Told(file, reading);
            Assert.False(told is { IsAsking: true }, $"{which}asks again: {(told is { IsAsking: true } ? told.Questions[0].Text : "")}");
            if (told is null) refused++;
            else
            {
                answered++;
                Holds(file, told, which);
            }
        }
        TestContext.Current.SendDiagnosticMessage($"seed {seed}: {straight} straight, {answered} after answers, {refused} refused");
        // Caution must not become a refusal of all: these figures are of our own generator.
        Assert.True(straight > Files * 0.35, $"{straight} of {Files} were read straight, {answered} after answers, {refused} refused.");
        Assert.True(refused < Files * 0.05, $"{refused} of {Files} were refused.");
    }

    [Fact]
    public void What_was_read_is_read_again_as_the_program_writes_it()
    {
        var files = new MessyCurves(1);
        for (var i = 0; i < 300; i++)
        {
            if (Reading(files.Next(), CurveAnswers.None, out _) is not { IsAsking: false } reading) continue;
            foreach (var device in reading.Curves.GroupBy(c => c.Serial))
            {
                var curves = device.Select(c => (c.AngleDeg, c.Curve)).ToList();
                var again = CurveFile.ReadByAngle(new MemoryStream(CurveText.Write(curves, ["file " + i])), "again");
                Assert.Equal(curves.SelectMany(c => c.Curve.Points), again.SelectMany(c => c.Curve.Points));
            }
        }
    }

    private static CurveReading? Told(MessyCurve file, CurveReading reading)
    {
        var columns = new Dictionary<int, ColumnMeaning>();
        NumberMarks? marks = null;
        for (var round = 0; round < 6 && reading.IsAsking; round++)
        {
            foreach (var question in reading.Questions)
            {
                if (question.Columns.Count == 0) marks = file.Marks;
                foreach (var column in question.Columns) columns[column] = ColumnMeaning.Parse(file.Answers[column])!;
            }
            if (Reading(file, new(columns, marks), out _) is not { } next) return null;
            reading = next;
        }
        return reading;
    }

    private static CurveReading? Reading(MessyCurve file, CurveAnswers answers, out string? why)
    {
        why = null;
        try
        {
            return CurveFile.Read(new MemoryStream(file.Bytes), "c", answers with { DevicesOf = t => t is "41001" or "41002" ? [t] : [] });
        }
        catch (SheetException e)
        {
            why = e.Message;
            return null;
        }
    }

    private static void Holds(MessyCurve file, CurveReading reading, string which)
    {
        var read = reading.Curves.SelectMany(c => c.Curve.Points.Select(p => (Key: (c.Serial, c.AngleDeg, p.Hz), p))).ToList();
        Assert.True(
            file.Truth.Keys.ToHashSet().SetEquals(read.Select(r => r.Key)),
            $"{which}read {string.Join("; ", read.Take(5).Select(r => r.Key))}, not {string.Join("; ", file.Truth.Keys.Take(5))}");
        foreach (var (key, point) in read)
        {
            var (level, expanded) = file.Truth[key];
            // Levels are written with three decimals, mV/Pa with four digits behind the mark.
            Assert.True(Math.Abs(level - point.LevelDb) < 1e-6,
                string.Create(CultureInfo.InvariantCulture, $"{which}{key}: {point.LevelDb}, not {level}"));
            Assert.True(
                expanded is null == point.ExpandedDb is null && Math.Abs((expanded ?? 0) - (point.ExpandedDb ?? 0)) < 1e-9,
                string.Create(CultureInfo.InvariantCulture, $"{which}{key}: U {point.ExpandedDb}, not {expanded}"));
        }
    }
}
