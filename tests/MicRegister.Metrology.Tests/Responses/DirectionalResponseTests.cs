using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.Responses;

/// <summary>Expected figures by hand algebra from invented curves.</summary>
public sealed class DirectionalResponseTests
{
    private const double Db = 1e-12;

    private static readonly ResponseCurve Front = new([new(100, 0, 0.2), new(10_000, 2, 0.4)]);
    private static readonly ResponseCurve Side = new([new(100, 0, 0.2), new(10_000, -2, 0.8)]);
    private static readonly ResponseCurve Back = new([new(100, 0, null), new(10_000, -6, null)]);

    private static readonly DirectionalResponse Three = new([new(60, Side, "b"), new(0, Front, "a"), new(120, Back, "b")]);

    [Fact]
    public void Level_and_uncertainty_lie_on_the_line_over_the_logarithm_of_frequency()
    {
        var (level, expanded) = Front.AtBand(1000)!.Value;

        Assert.Equal(1, level, Db); // half way in decades
        Assert.Equal(0.3, expanded!.Value, Db);
        Assert.Null(Back.AtBand(1000)!.Value.ExpandedDb);
    }

    [Theory]
    [InlineData(99.5, true)] // within 1 % of the end
    [InlineData(98.9, false)]
    [InlineData(10_050, true)]
    [InlineData(10_110, false)]
    public void An_end_reaches_a_band_within_one_per_cent(double hz, bool reaches) => Assert.Equal(reaches, Front.AtBand(hz) is not null);

    [Theory]
    [InlineData(0, 1, 0.15, 0)] // U / 2 of the front
    [InlineData(60, -1, 0, 0.25)]
    [InlineData(30, 0, 0.075, 0.125)] // half of both
    [InlineData(20, 1 / 3.0, 0.1, 0.25 / 3)]
    public void Between_two_angles_the_level_is_linear_and_each_source_has_its_share(double angle, double levelDb, double a, double b)
    {
        var level = Three.At(1000, angle)!.Value;

        Assert.Equal(levelDb, level.LevelDb, Db);
        Assert.Equal(a, level.Parts.Where(p => p.Source == "a").Sum(p => p.StandardDb), Db);
        Assert.Equal(b, level.Parts.Where(p => p.Source == "b").Sum(p => p.StandardDb), Db);
        Assert.Equal(0, level.HalfWidthDb);
        Assert.True(level.StatesUncertainty);
    }

    [Fact]
    public void Of_one_source_two_curves_add_up_before_they_are_squared_and_a_missing_uncertainty_is_told()
    {
        var level = Three.At(1000, 90)!.Value; // half of side (-1) and back (-3), both of source b

        Assert.Equal(-2, level.LevelDb, Db);
        Assert.Equal(("b", 0.125), (level.Parts[0].Source, Math.Round(level.Parts[0].StandardDb, 12)));
        Assert.Single(level.Parts);
        Assert.False(level.StatesUncertainty);
    }

    [Theory]
    [InlineData(30, 10, 1 / 3.0)] // slope of 2 dB in 60°
    [InlineData(60, 30, 1)]
    [InlineData(50, 20, 2 / 3.0)]
    public void A_half_width_of_the_angle_reaches_as_far_as_the_level_does(double angle, double half, double least)
    {
        var level = Three.At(1000, angle, half)!.Value;
        var ends = new[] { angle - half, angle + half }.Select(a => Math.Abs(Three.At(1000, a)!.Value.LevelDb - level.LevelDb)).Max();

        Assert.True(level.HalfWidthDb >= least - Db);
        Assert.Equal(Math.Max(ends, angle - half < 60 && angle + half > 60 ? Math.Abs(-1 - level.LevelDb) : 0), level.HalfWidthDb, Db);
    }

    [Theory]
    [InlineData(150, -3)] // 30° beyond the last curve: it holds
    [InlineData(149, -3)]
    public void The_outermost_curve_holds_for_thirty_degrees_more(double angle, double levelDb) => Assert.Equal(levelDb, Three.At(1000, angle)!.Value.LevelDb, Db);

    [Fact]
    public void Further_out_and_beyond_the_frequencies_nothing_is_known()
    {
        var one = new DirectionalResponse([new(60, Front, "a")]);

        Assert.Null(one.At(1000, 91));
        Assert.Null(one.At(1000, 29));
        Assert.Null(one.At(1000, 60, 31)); // a part of the range lies too far out
        Assert.NotNull(one.At(1000, 60, 30));
        Assert.Null(Three.At(1000, 151));
        // Between two curves too: 30° beside each of them.
        var wide = new DirectionalResponse([new(0, Front, "a"), new(90, Side, "b")]);
        Assert.Equal(1 / 3.0, wide.At(1000, 30)!.Value.LevelDb, Db);
        Assert.Null(wide.At(1000, 31));
        Assert.Null(wide.At(1000, 45));
        Assert.NotNull(wide.At(1000, 60));
        Assert.Null(Three.At(20, 0));
        Assert.Null(Three.Anywhere(20));
    }

    [Fact]
    public void Of_an_unknown_direction_the_middle_is_taken_and_half_of_what_lies_between()
    {
        var level = Three.Anywhere(1000)!.Value; // 1, -1 and -3

        Assert.Equal(-1, level.LevelDb, Db);
        Assert.Equal(2, level.HalfWidthDb, Db);
        Assert.False(level.StatesUncertainty);
    }

    [Fact]
    public void A_curve_for_every_direction_holds_at_each()
    {
        var all = new DirectionalResponse([new(null, Front, "a")]);

        Assert.Equal(1, all.At(1000, 170, 10)!.Value.LevelDb, Db);
        Assert.Equal(0, all.At(1000, 170, 10)!.Value.HalfWidthDb);
        Assert.Equal((1.0, 0.0), (Math.Round(all.Anywhere(1000)!.Value.LevelDb, 12), all.Anywhere(1000)!.Value.HalfWidthDb));
        Assert.Empty(all.Angles);
    }

    [Fact]
    public void What_is_no_response_is_refused()
    {
        Assert.Throws<ArgumentException>(() => new DirectionalResponse([]));
        Assert.Throws<ArgumentException>(() => new DirectionalResponse([new(0, Front, "a"), new(0, Side, "b")]));
        Assert.Throws<ArgumentException>(() => new DirectionalResponse([new(null, Front, "a"), new(0, Side, "b")]));
        Assert.Throws<ArgumentException>(() => new DirectionalResponse([new(181, Front, "a")]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Three.At(1000, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Three.At(1000, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Three.At(1000, 0, -1));
    }
}
