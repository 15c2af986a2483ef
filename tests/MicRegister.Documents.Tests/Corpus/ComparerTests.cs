namespace MicRegister.Documents.Tests.Corpus;

public sealed class ComparerTests
{
    private static readonly Shape Certificates = Shapes.All.Single(s => s.Name == "certificates-with-air");

    [Fact]
    public void What_is_taken_over_as_it_stands_is_whole()
    {
        var file = File();

        Assert.Equal(Fate.Whole, Compare(file.Truth, Perfect.Of(file.Truth)).Fate);
    }

    [Theory]
    [InlineData(nameof(Said.Value))]
    [InlineData(nameof(Said.U))]
    [InlineData(nameof(Said.Day))]
    [InlineData(nameof(Said.Hz))]
    [InlineData(nameof(Said.Lab))]
    [InlineData(nameof(Said.Due))]
    public void A_wrong_figure_of_one_result_is_found(string field)
    {
        var what = Enum.Parse<Said>(field);
        var file = File();
        var taken = Perfect.Of(file.Truth);
        var fields = (Dictionary<Said, Stated>)taken[3].Results[0].Fields;
        fields[what] = fields[what] switch
        {
            { Number: { } n, Unit: var unit } => new(null, n * 1.0001, unit),
            _ => new("1999-01-01"),
        };

        var verdict = Compare(file.Truth, taken);

        Assert.Equal(Fate.Wrong, verdict.Fate);
        Assert.Contains(file.Truth.Devices.ElementAt(3).Instrument.Serial, Assert.Single(verdict.Wrong), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(nameof(Said.Kind))]
    [InlineData(nameof(Said.Maker))]
    [InlineData(nameof(Said.Model))]
    [InlineData(nameof(Said.Serial))]
    public void A_wrong_word_of_one_device_is_found(string field)
    {
        var what = Enum.Parse<Said>(field);
        var file = File();
        var taken = Perfect.Of(file.Truth);
        ((Dictionary<Said, Stated>)taken[2].Fields)[what] = new("else");

        Assert.Equal(Fate.Wrong, Compare(file.Truth, taken).Fate);
    }

    [Fact]
    public void What_the_file_does_not_say_is_wrong_where_it_is_stored()
    {
        var file = File();
        var taken = Perfect.Of(file.Truth);
        ((Dictionary<Said, Stated>)taken[0].Fields)[Said.Place] = new("Attic");

        Assert.Equal(Fate.Wrong, Compare(file.Truth, taken).Fate);
        Assert.Equal(Fate.Wrong, Compare(file.Truth, [.. Perfect.Of(file.Truth), taken[0]]).Fate);
    }

    [Fact]
    public void What_is_missing_is_lost_unless_a_person_is_asked()
    {
        var file = File();
        var taken = Perfect.Of(file.Truth).Skip(1).ToList();

        Assert.Equal(Fate.Lost, Compare(file.Truth, taken).Fate);
        Assert.Equal(Fate.Asked, Compare(file.Truth, taken, "row 2: who is that?").Fate);
        Assert.Equal(1 + file.Truth.Devices.First().Results.Count, Compare(file.Truth, taken).Lacking);
    }

    [Fact]
    public void The_same_value_in_another_unit_is_the_same()
    {
        var file = File();
        var taken = Perfect.Of(file.Truth);
        var fields = (Dictionary<Said, Stated>)taken[0].Results[0].Fields;
        fields[Said.Value] = new(null, fields[Said.Value].Number!.Value / 1000, "V/Pa");

        Assert.Equal(Fate.Whole, Compare(file.Truth, taken).Fate);
    }

    [Fact]
    public void A_value_given_in_two_units_may_be_stored_in_either_but_once()
    {
        var shape = Shapes.All.Single(s => s.Name == "further-02");
        var file = CorpusFile.Of(shape, Tongue.English, true, null, 4)!;
        var level = file.Truth.Devices.First().Results.Values.First().Again!.Value;
        var taken = Perfect.Of(file.Truth);
        var other = new Dictionary<Said, Stated>(taken[0].Results[0].Fields) { [Said.Value] = level };

        taken[0] = taken[0] with { Results = [taken[0].Results[0] with { Fields = other }, .. taken[0].Results.Skip(1)] };
        Assert.Equal(Fate.Whole, Compare(file.Truth, taken).Fate);

        taken[0] = taken[0] with { Results = [.. taken[0].Results, taken[0].Results[0]] };
        Assert.Equal(Fate.Wrong, Compare(file.Truth, taken).Fate);

        other[Said.Value] = level with { Number = level.Number + 0.01 };
        taken[0] = taken[0] with { Results = [.. taken[0].Results.SkipLast(1)] };
        Assert.Equal(Fate.Wrong, Compare(file.Truth, taken).Fate);
    }

    [Fact]
    public void Where_one_of_two_units_is_missing_the_other_is_the_value()
    {
        var shape = Shapes.All.Single(s => s.Name == "further-02");
        var file = CorpusFile.Of(shape, Tongue.English, true, Damages.All.Single(d => d.Name == "value-missing"), 4)!;

        var result = Assert.Single(file.Truth.Devices.SelectMany(d => d.Results.Values), r => r.Again is null);
        Assert.Equal("dB re 1 V/Pa", result.Fields[Said.Value].Unit);
        Assert.True(result.IsStated);
    }

    [Fact]
    public void What_only_a_person_can_settle_is_whole_when_it_is_asked_and_wrong_when_it_is_stored()
    {
        var shape = Shapes.All.Single(s => s.Name == "serial-day-and-value");
        var file = CorpusFile.Of(shape, Tongue.English, true, Damages.All.Single(d => d.Name == "value-ten-times"), 5)!;
        var (serial, result) = file.Truth.Devices.SelectMany(d => d.Results.Values.Select(r => (d.Instrument.Serial, Result: r)))
            .Single(p => p.Result.IsDoubtful);
        var taken = Perfect.Of(file.Truth);

        Assert.Equal(Fate.Whole, Compare(file.Truth, taken, "row 7: is that ten times too much?").Fate);
        Assert.Equal(Fate.Lost, Compare(file.Truth, taken).Fate);

        var value = result.Fields[Said.Value];
        var slipped = new Dictionary<Said, Stated>(result.Fields) { [Said.Value] = value with { Number = value.Number * 10 } };
        var at = taken.FindIndex(d => d.Fields[Said.Serial].Text == serial);
        taken[at] = taken[at] with { Results = [.. taken[at].Results, new("sensitivity", slipped, false)] };
        Assert.Equal(Fate.Wrong, Compare(file.Truth, taken, "row 7: is that ten times too much?").Fate);
    }

    [Fact]
    public void Floors_rise_and_never_fall()
    {
        var stored = Floors.Read(["# shape", "a 3 4 1"]);

        Assert.Equal(new Floor(3, 4, 1), stored["a"]);
        Assert.Empty(Floors.Fallen(stored, Floors.Read(["a 5 4 0"])));
        Assert.Equal(["a 2 9 0, on record a 3 4 1"], Floors.Fallen(stored, Floors.Read(["a 2 9 0"])));
        Assert.Equal(["a 3 4 2, on record a 3 4 1"], Floors.Fallen(stored, Floors.Read(["a 3 4 2"])));
        Assert.Equal(["b 1 1 1, on record nothing"], Floors.Fallen(stored, Floors.Read(["b 1 1 1"])));
        Assert.Equal(new Floor(5, 4, 0), stored["a"].Better(new(5, 2, 0)));
    }

    private static CorpusFile File() => CorpusFile.Of(Certificates, Tongue.English, true, null, 3)!;

    private static Verdict Compare(Truth truth, IReadOnlyList<TakenDevice> taken, params string[] questions) =>
        Comparer.Compare(truth, taken, questions, []);
}
