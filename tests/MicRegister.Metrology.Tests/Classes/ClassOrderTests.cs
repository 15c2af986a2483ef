using MicRegister.Metrology.Classes;

namespace MicRegister.Metrology.Tests.Classes;

/// <summary>
/// Every pair of a class and a least one. The table was written by hand from these rules: LS (or 0 of 1988) before 1 before 2; a wider
/// class misses; a tighter one of another edition meets (own reading, marked *); an equal one of a later edition meets where "or later" stands;
/// everything else of another edition is undecided; L does not stand for a class without a letter.
/// </summary>
public sealed class ClassOrderTests
{
    // Columns: what is asked. Cells: M meets, m meets by an own reading, x misses, ? undecided.
    private static readonly string[] Asked =
    [
        "IEC 60942:1997 1L or later", "IEC 60942:1997 1L", "IEC 60942:1997 1 or later", "IEC 60942:2003 1", "IEC 60942:2003 LS or later",
        "IEC 60942:2017 1", "IEC 60942:2017 2", "IEC 942:1988 1 or later",
    ];

    public static TheoryData<string, string> Table() => new()
    {
        { "0", "m m m m ? m m M" },
        { "1, IEC 942:1988", "? ? ? ? x ? m M" },
        { "2, IEC 942:1988", "x x x x x x ? x" },
        { "LS, 1997", "M M M m ? m m M" },
        { "LS/L", "M M ? ? ? ? ? ?" },
        { "1, 1997", "M M M ? x ? m M" },
        { "1L", "M M ? ? x ? ? ?" },
        { "2, 1997", "x x x x x x ? x" },
        { "2L", "x x x x x x ? x" },
        { "LS, 2003", "M m M M M m m M" },
        { "LS/C", "M m M M M m m M" },
        { "1, 2003", "M ? M M x ? m M" },
        { "1/C", "M ? M M x ? m M" },
        { "2, 2003", "x x x x x x ? x" },
        { "2/C", "x x x x x x ? x" },
        { "LS, 2017", "M m M m M M M M" },
        { "LS/M", "M m M m M M M M" },
        { "1, 2017", "M ? M ? x M M M" },
        { "1/M", "M ? M ? x M M M" },
        { "2, 2017", "x x x x x x M x" },
        // Without an edition: what holds for all that it can be of.
        { "1", "? ? ? ? x ? m M" },
        { "2", "x x x x x x ? x" },
        { "LS", "M m M m ? m m M" },
        { "1, IEC 60942", "M ? M ? x ? m M" },
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void Each_pair_is_judged(string has, string answers)
    {
        var stated = ClassText.Read(InstrumentSort.Calibrator, has, out var wrong);

        Assert.Null(wrong);
        Assert.Equal(answers, string.Join(' ', Asked.Select(a => Word(Judge(stated!, a, true)))));
    }

    [Theory]
    [InlineData("1/C")]
    [InlineData("LS/M")]
    [InlineData("1L")]
    public void A_letter_needs_the_makers_correction_for_static_pressure(string has)
    {
        var stated = ClassText.Read(InstrumentSort.Calibrator, has, out _)!;
        var without = Judge(stated, Asked[0], false);

        Assert.Equal(ClassAnswer.Meets, Judge(stated, Asked[0], true).Answer);
        Assert.Equal(ClassAnswer.Undecided, without.Answer);
        Assert.Contains("asks for the maker's correction for static pressure, and none is stated", without.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_letter_does_not_save_a_class_that_is_too_wide() =>
        Assert.Equal(ClassAnswer.Misses, Judge(ClassText.Read(InstrumentSort.Calibrator, "2/C", out _)!, Asked[0], false).Answer);

    [Theory]
    [InlineData("1, 2017", "IEC 60942:2017 is a later edition, which the rule takes as well")]
    [InlineData("1, 1988", "it is of an earlier edition, IEC 942:1988, and nothing says that both are equal")]
    [InlineData("0", "tighter class, of IEC 942:1988: own reading, since no standard compares both editions")]
    [InlineData("1", "its edition is not stated, and it depends on it: of IEC 942:1988 it is undecided; of IEC 60942:1997 it meets it")]
    [InlineData("2", "its edition is not stated, and of each it can be of it misses it")]
    [InlineData("1, 1997", "it is at least that class of that edition")]
    public void It_says_why(string has, string why) =>
        Assert.Contains(why, Judge(ClassText.Read(InstrumentSort.Calibrator, has, out _)!, Asked[0], true).Why, StringComparison.Ordinal);

    [Theory]
    [InlineData("type 1, IEC 651:1979", "M")]
    [InlineData("type 0, IEC 651:1979", "M")]
    [InlineData("type 2, IEC 651:1979", "x")]
    [InlineData("class 1, IEC 61672-1:2013", "?")]
    [InlineData("class 2, IEC 61672-1:2013", "?")]
    [InlineData("type 1, IEC 804:1985", "?")]
    [InlineData("1", "?")]
    public void Meters_of_another_standard_are_not_compared(string has, string answer)
    {
        var least = LeastClass.Read(InstrumentSort.Meter, "type 1, IEC 651:1979 or later", out _)!;

        Assert.Equal(answer, Word(ClassOrder.Judge(ClassText.Read(InstrumentSort.Meter, has, out _)!, least, false)));
    }

    [Theory]
    [InlineData("1, IEC 61260-1:2014", "M")]
    [InlineData("0", "M")]
    [InlineData("2, IEC 61260-1:2014", "x")]
    public void Filters_follow_the_same_order(string has, string answer)
    {
        var least = LeastClass.Read(InstrumentSort.Filter, "class 1, IEC 61260:1995 or later", out _)!;

        Assert.Equal(answer, Word(ClassOrder.Judge(ClassText.Read(InstrumentSort.Filter, has, out _)!, least, false)));
    }

    [Fact]
    public void Two_sorts_cannot_be_compared() => Assert.Throws<ArgumentException>(() => ClassOrder.Judge(
        ClassText.Read(InstrumentSort.Meter, "1", out _)!, LeastClass.Read(InstrumentSort.Calibrator, "1L", out _)!, true));

    private static ClassVerdict Judge(StatedClass has, string least, bool isCorrectionStated) =>
        ClassOrder.Judge(has, LeastClass.Read(InstrumentSort.Calibrator, least, out _)!, isCorrectionStated);

    private static string Word(ClassVerdict verdict) => verdict switch
    {
        { Answer: ClassAnswer.Misses } => "x",
        { Answer: ClassAnswer.Undecided } => "?",
        { IsOwnReading: true } => "m",
        _ => "M",
    };
}
