using MicRegister.Metrology.Classes;

namespace MicRegister.Metrology.Tests.Classes;

/// <summary>
/// How people write classes. Letters and years of IEC 60942: L belongs to 1997, C to 2003 (its 5.1.4), M to 2017 (its preface); 1988 has
/// classes 0, 1 and 2.
/// </summary>
public sealed class ClassTextTests
{
    private static readonly InstrumentSort Calibrator = InstrumentSort.Calibrator;

    [Theory]
    [InlineData("1L", "1L", 1997)]
    [InlineData("1/L", "1L", 1997)]
    [InlineData("1 L (1997)", "1L", 1997)]
    [InlineData("class 1l", "1L", 1997)]
    [InlineData("IEC 60942:1997 1L", "1L", 1997)]
    [InlineData("IEC 60942:1997+A1:2000, class 1", "1", 1997)]
    [InlineData("class 1, IEC 60942:2017", "1", 2017)]
    [InlineData("1, 2017", "1", 2017)]
    [InlineData("1 (4th edition)", "1", 2017)]
    [InlineData("class 1 of IEC 60942 ed. 3", "1", 2003)]
    [InlineData("EN IEC 60942-2003 1/C", "1/C", 2003)]
    [InlineData("1/C", "1/C", 2003)]
    [InlineData("ls/c", "LS/C", 2003)]
    [InlineData("LS/M", "LS/M", 2017)]
    [InlineData("1M", "1/M", 2017)]
    [InlineData("Klasse 2, IEC 942", "2", 1988)]
    [InlineData("0", "0", 1988)]
    [InlineData("class 0 of IEC 942:1988", "0", 1988)]
    [InlineData("LS/L", "LS/L", 1997)]
    public void A_class_and_its_edition_are_read_in_any_order(string text, string designation, int year)
    {
        var read = ClassText.Read(Calibrator, text, out var wrong);

        Assert.Null(wrong);
        Assert.Equal((designation, year), (read!.Designation, read.Edition!.Year));
    }

    [Theory]
    [InlineData("1", "1988 1997 2003 2017")]
    [InlineData("class 2", "1988 1997 2003 2017")]
    [InlineData("LS", "1997 2003 2017")]
    [InlineData("IEC 60942 class 1", "1997 2003 2017")]
    [InlineData("class 1, edition not stated", "1988 1997 2003 2017")]
    public void Without_an_edition_none_is_guessed(string text, string years)
    {
        var read = ClassText.Read(Calibrator, text, out _)!;

        Assert.Null(read.Edition);
        Assert.Equal(years, string.Join(' ', read.Editions.Select(e => e.Year)));
        Assert.EndsWith("edition not stated", read.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "names no class of a sound calibrator; allowed is such as '1L'")]
    [InlineData("A", "names no class")]
    [InlineData("3", "no edition has a class 3")]
    [InlineData("1/X", "names no class")]
    [InlineData("1 2", "names no class")]
    [InlineData("2017", "names no class")]
    [InlineData("1L, 2017", "IEC 60942:2017 has no class 1L")]
    [InlineData("1/C (1997)", "IEC 60942:1997 has no class 1/C")]
    [InlineData("0, IEC 60942:2003", "IEC 60942:2003 has no class 0")]
    [InlineData("LS, IEC 942:1988", "IEC 942:1988 has no class LS")]
    [InlineData("0L", "no edition has a class 0L")]
    [InlineData("1, EN IEC 60942:2018", "the year is that of the IEC, not of a national edition")]
    [InlineData("1, 1997, 2003", "names no edition that is known")]
    [InlineData("1, IEC 61672-1:2013", "names no edition that is known; allowed are IEC 942:1988 (0, 1, 2); IEC 60942:1997 (LS, 1,")]
    [InlineData("1, ed. 5", "names no edition that is known")]
    public void What_cannot_be_is_refused_with_what_is_allowed(string text, string says)
    {
        Assert.Null(ClassText.Read(Calibrator, text, out var wrong));
        Assert.Contains(says, wrong, StringComparison.Ordinal);
    }

    [Fact]
    public void A_text_without_end_is_refused()
    {
        Assert.Null(ClassText.Read(Calibrator, new string(' ', 201) + "1", out var wrong));
        Assert.NotNull(wrong);
    }

    [Theory]
    [InlineData("1", "2017", "1", 2017)]
    [InlineData("1/C", "IEC 60942:2003", "1/C", 2003)]
    [InlineData("LS", "ed. 2", "LS", 1997)]
    public void An_edition_that_was_said_elsewhere_counts(string text, string edition, string designation, int year)
    {
        var read = ClassText.Read(Calibrator, text, edition, out _)!;

        Assert.Equal((designation, year), (read.Designation, read.Edition!.Year));
    }

    [Theory]
    [InlineData("1L", "2003", "class 1L of IEC 60942:1997 is not of the edition '2003'")]
    [InlineData("1", "new", "'new' is no edition; allowed are IEC 942:1988, IEC 60942:1997, IEC 60942:2003, IEC 60942:2017")]
    public void An_edition_that_contradicts_the_class_is_refused(string text, string edition, string says)
    {
        Assert.Null(ClassText.Read(Calibrator, text, edition, out var wrong));
        Assert.Contains(says, wrong, StringComparison.Ordinal);
    }

    [Fact]
    public void An_edition_alone_is_one_year()
    {
        Assert.Equal(2003, Assert.Single(ClassText.Edition(Calibrator, "IEC 60942:2003", out _)!).Year);
        Assert.Null(ClassText.Edition(Calibrator, "IEC 60942:2003 1", out _));
        Assert.Null(ClassText.Edition(Calibrator, " ", out _));
    }

    [Theory]
    [InlineData("class 1, IEC 61260:1995", 1995, "class 1 of IEC 61260:1995")]
    [InlineData("0", 1995, "class 0 of IEC 61260:1995")]
    [InlineData("IEC 1260 class 2 (1995)", 1995, "class 2 of IEC 61260:1995")]
    [InlineData("1, IEC 61260-1:2014", 2014, "class 1 of IEC 61260-1:2014")]
    public void Filters_have_classes_too(string text, int year, string words)
    {
        var read = ClassText.Read(InstrumentSort.Filter, text, out _)!;

        Assert.Equal((year, words), (read.Edition!.Year, read.Text));
    }

    [Theory]
    [InlineData("Type 1 of IEC 651", 1979, "type 1 of IEC 651:1979")]
    [InlineData("IEC 60651 type 0", 1979, "type 0 of IEC 651:1979")]
    [InlineData("IEC 804:1985 type 2", 1985, "type 2 of IEC 804:1985")]
    [InlineData("class 1, IEC 61672-1:2013", 2013, "class 1 of IEC 61672-1:2013")]
    [InlineData("class 2, IEC 61672:2002", 2002, "class 2 of IEC 61672-1:2002")]
    public void Meters_have_types_or_classes(string text, int year, string words)
    {
        var read = ClassText.Read(InstrumentSort.Meter, text, out _)!;

        Assert.Equal((year, words), (read.Edition!.Year, read.Text));
    }

    [Theory]
    [InlineData("IEC 60942:1997 1L or later", "IEC 60942:1997 1L or later", "class 1L of IEC 60942:1997 or a later edition")]
    [InlineData("1l as amended", "IEC 60942:1997 1L or later", "class 1L of IEC 60942:1997 or a later edition")]
    [InlineData("class 1, IEC 60942:2003", "IEC 60942:2003 1", "class 1 of IEC 60942:2003")]
    public void A_least_class_is_of_one_edition(string text, string written, string words)
    {
        var least = LeastClass.Read(Calibrator, text, out var wrong);

        Assert.Null(wrong);
        Assert.Equal((written, words), (least!.Text, least.Words));
        Assert.Equal(least, LeastClass.Read(Calibrator, least.Text, out _), (a, b) => a!.Text == b!.Text);
    }

    [Fact]
    public void A_least_class_without_an_edition_is_refused()
    {
        Assert.Null(LeastClass.Read(Calibrator, "1 or later", out var wrong));
        Assert.Contains("a least class names its edition, as in 'IEC 60942:2017 1 or later'", wrong, StringComparison.Ordinal);
        Assert.Null(LeastClass.Read(Calibrator, "or later", out wrong));
        Assert.Contains("names no class", wrong, StringComparison.Ordinal);
    }

    // Every class of every edition is written so that it is read again as itself.
    [Fact]
    public void What_is_written_is_read_again()
    {
        InstrumentSort[] sorts = [Calibrator, InstrumentSort.Filter, InstrumentSort.Meter];
        var all = from sort in sorts
                  from edition in sort.Editions
                  from name in edition.Classes
                  from letter in new[] { null, edition.Letter }.Distinct()
                  select new StatedClass(sort, name, letter, [edition]);

        Assert.Equal(18 + 5 + 12 + 3, all.Count());
        Assert.All(all, c =>
        {
            var again = ClassText.Read(c.Sort, c.Text, out var wrong);
            Assert.True(wrong is null, wrong);
            Assert.Equal((c.Text, c.Designation), (again!.Text, again.Designation));
            Assert.Equal(c.Text, ClassText.Read(c.Sort, c.Designation, c.Edition!.Text, out _)!.Text);
        });
    }
}
