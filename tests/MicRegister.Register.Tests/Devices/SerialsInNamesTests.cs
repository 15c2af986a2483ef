using MicRegister.Register.Devices;

namespace MicRegister.Register.Tests.Devices;

/// <summary>What the name of a file says of devices: never more than stands in it.</summary>
public sealed class SerialsInNamesTests
{
    [Theory]
    [InlineData("41001.pdf")]
    [InlineData("41001")]
    [InlineData("certificate 41001 of July.pdf")]
    [InlineData("2026-08-03_41001_(2).PDF")]
    [InlineData("sn41001.pdf")]
    [InlineData("SN_41001-curve.csv")]
    [InlineData("Seriennummer41001.xml")]
    [InlineData("C:\\house\\July\\41001.pdf")]
    [InlineData("４１００１.pdf")] // full width, as some machines write
    public void A_serial_number_that_stands_apart_is_found(string name) => Assert.Equal("A", Only(name, ("A", "41001")));

    [Theory]
    [InlineData("41001.pdf", "4100")]
    [InlineData("41001.pdf", "1001")]
    [InlineData("241001.pdf", "41001")]
    [InlineData("4100.pdf", "41001")]
    public void A_serial_number_within_a_longer_one_is_none(string name, string serial) => Assert.Empty(Find(name, ("A", serial)));

    [Fact]
    public void Of_two_where_one_is_part_of_the_other_the_whole_one_is_meant_only_where_nothing_parts_them()
    {
        Assert.Equal("A", Only("41001.pdf", ("A", "41001"), ("B", "4100")));
        // 41001-2 may be that serial number, or the second file of 41001: both are told.
        Assert.Equal(["A", "B"], Find("41001-2.pdf", ("A", "41001"), ("B", "41001-2")).Select(f => f.Device));
        Assert.Null(Only("41001-2.pdf", ("A", "41001"), ("B", "41001-2")));
    }

    [Fact]
    public void Two_devices_of_one_serial_number_are_both_told()
    {
        Assert.Equal(["A", "B"], Find("7.pdf", ("A", "7"), ("B", "7")).Select(f => f.Device));
        Assert.Null(Only("7.pdf", ("A", "7"), ("B", "7")));
    }

    [Fact]
    public void Two_serial_numbers_in_one_name_are_both_told()
    {
        Assert.Equal(["A", "B"], Find("41001 and 41002.pdf", ("A", "41001"), ("B", "41002")).Select(f => f.Device));
        Assert.Null(Only("41001 of 2026-08-03.pdf", ("A", "41001"), ("B", "2026")));
    }

    [Theory]
    [InlineData("0041001.pdf", "41001")]
    [InlineData("41001.pdf", "0041001")]
    public void Leading_zeros_count_and_are_only_alike(string name, string serial) =>
        Assert.False(Assert.Single(Find(name, ("A", serial))).IsWritten);

    [Theory]
    [InlineData("4l0o1.pdf", "41001")]
    [InlineData("41001.pdf", "4I0O1")]
    [InlineData("41001a.pdf", "41001")]
    [InlineData("mic41001.pdf", "41001")]
    [InlineData("410 01.pdf", "41001")]
    public void What_only_looks_like_it_is_told_as_such(string name, string serial) =>
        Assert.Equal([new SerialInName("A", serial, false)], Find(name, ("A", serial)));

    [Fact]
    public void What_is_written_to_the_letter_goes_before_what_looks_like_it()
    {
        Assert.Equal("A", Only("012.pdf", ("A", "012"), ("B", "O12"), ("C", "12")));
        Assert.Equal("A", Only("A41001.pdf", ("A", "A41001"), ("B", "41001")));
        // Somewhere else in the name it is another word, which may be meant.
        Assert.Null(Only("7 0041001.pdf", ("A", "7"), ("B", "41001")));
    }

    [Theory]
    [InlineData("gp-12.pdf")]
    [InlineData("Gp_12 plate.pdf")]
    [InlineData("GP 12.pdf")]
    public void Capitals_and_what_parts_it_are_no_difference(string name) => Assert.Equal("A", Only(name, ("A", "gP-12")));

    [Theory]
    [InlineData("certificate.pdf")]
    [InlineData("scan 3.pdf")]
    [InlineData(".pdf")]
    [InlineData("")]
    public void A_name_without_one_names_none(string name) => Assert.Null(Only(name, ("A", "41002"), ("B", ""), ("C", " "), ("D", null)));

    [Fact]
    public void An_ending_is_no_part_of_the_name_and_begins_with_a_letter()
    {
        Assert.Empty(Find("scan.m4", ("A", "M4")));
        Assert.Equal("A", Only("41001.5", ("A", "41001.5")));
    }

    [Fact]
    public void A_device_that_is_named_twice_is_told_once() =>
        Assert.Equal(["A"], Find("41001 41001 0041001.pdf", ("A", "41001"), ("A", "INV 41001")).Select(f => f.Device));

    [Fact]
    public void A_register_is_looked_through_by_serial_numbers_and_inventory_codes()
    {
        var register = FactList.RegisterOf([
            Make.Registered("D1", "41001"), Make.Registered("D2", "41002", details: ("inventory-code", "INV 5")),
        ]);
        var names = SerialsInNames.Of(register);
        Assert.Equal("D1", SerialsInNames.Only(names.Find("41001.pdf")));
        Assert.Equal("D2", SerialsInNames.Only(names.Find("inv_5.pdf")));
    }

    [Fact]
    public void A_very_long_name_costs_little()
    {
        var name = string.Concat(Enumerable.Repeat("a1", 4000)) + " 41001.pdf";
        Assert.Empty(Find(name, ("A", "41001"))); // beyond what a disk takes as a name
    }

    private static IReadOnlyList<SerialInName> Find(string name, params (string, string?)[] known) => new SerialsInNames(known).Find(name);

    private static string? Only(string name, params (string, string?)[] known) => SerialsInNames.Only(Find(name, known));
}
