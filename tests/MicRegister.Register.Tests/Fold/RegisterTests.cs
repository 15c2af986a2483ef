using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.Fold;

public sealed class RegisterTests
{
    [Fact]
    public void True_on_a_day_leaves_out_what_came_later()
    {
        var register = FactList.RegisterOf([
            Make.Registered("A1", "1"), Make.Of(new DeviceMoved("store"), "2024-01-01", "device:A1"), Make.Of(new DeviceMoved("van"), "2024-06-01", "device:A1")]);

        Assert.Equal("store", register.Device("A1", Make.Day("2024-05-31"))!.Place);
        Assert.Equal("van", register.Device("A1", Make.Day("2024-06-01"))!.Place);
        Assert.Null(register.Device("A1", Make.Day("2019-12-31")));
    }

    [Fact]
    public void Bare_days_begin_in_the_homes_zone()
    {
        // At UTC+10 the day begins at 14:00 UTC of the day before, so a fact at 15:00 UTC comes after it.
        var founded = Make.Of(new RegisterFounded("R", "House", "Zone/Home", [new("2020-01-01T00:00:00.000Z", 600)]), "2020-01-01", Subject.TheRegister);
        var day = Make.Of(new DeviceMoved("store"), "2024-06-02", "device:A1");
        var instant = FactText.WriteDerived(new(Make.On("2024-06-01T15:00:00.000Z"), "P1", "phone", 0), new DeviceMoved("van"), ["device:A1"]);

        Assert.Equal("van", FactList.RegisterOf([founded, day, instant]).Device("A1")!.Place);
        Assert.Equal("van", FactList.RegisterOf([day, instant, founded]).Device("A1")!.Place);
        Assert.Equal("store", FactList.RegisterOf([day, instant]).Device("A1")!.Place); // in UTC the day begins after it
    }

    [Fact]
    public void A_clock_that_was_off_is_put_right_and_beyond_two_minutes_people_are_told()
    {
        var early = FactText.WriteDerived(new(Make.On("2024-06-01T10:00:00.000Z"), "P1", "phone", 5), new DeviceMoved("field"), ["device:A1"]);
        var desk = FactText.WriteDerived(new(Make.On("2024-06-01T11:00:00.000Z"), "P1", "desk", 0), new DeviceMoved("store"), ["device:A1"]);
        Fact Notice(long ms) => Make.Of(new ClientClockNoticed("phone", 0, ms), "2024-06-02", Subject.TheRegister);

        Assert.Equal("store", FactList.RegisterOf([early, desk]).Device("A1")!.Place);
        Assert.Equal("field", FactList.RegisterOf([early, desk, Notice(7_200_000)]).Device("A1")!.Place);
        Assert.Equal("clock-off", Assert.Single(FactList.RegisterOf([Notice(120_001)]).Findings(new DateOnly(2026, 5, 1))).Rule);
        Assert.Empty(FactList.RegisterOf([Notice(120_000)]).Findings(new DateOnly(2026, 5, 1)));
    }

    [Fact]
    public void Joined_entries_are_one_device_until_they_part()
    {
        Fact[] two = [Make.Registered("A1", "1"), Make.Registered("A2", "01"), Make.Of(new DeviceMoved("van"), "2024-01-01", "device:A2")];
        var joined = Make.Of(new DevicesJoined("A1", "A2", "leading zero"), "2024-02-01", "device:A1", "device:A2");
        var parted = Make.Of(new DevicesParted("A1", "A2", "two after all"), "2024-03-01", "device:A1", "device:A2");

        var register = FactList.RegisterOf([.. two, joined]);
        Assert.Equal(["A1"], register.DeviceIds);
        Assert.Equal("van", register.Device("A2")!.Place);
        Assert.Equal("A1", register.Device("A2")!.Id);
        Assert.Equal(["A1", "A2"], FactList.RegisterOf([.. two, joined, parted]).DeviceIds);
    }

    [Fact]
    public void Entries_joined_in_a_chain_can_be_parted_again()
    {
        Fact[] three = [Make.Registered("A1", "1"), Make.Registered("A2", "2"), Make.Registered("A3", "3")];
        Fact[] joins = [Make.Of(new DevicesJoined("A1", "A2", "x"), "2024-02-01", "device:A1", "device:A2"), Make.Of(new DevicesJoined("A3", "A1", "x"), "2024-02-02", "device:A3", "device:A1")];
        var parted = Make.Of(new DevicesParted("A1", "A2", "two"), "2024-03-01", "device:A1", "device:A2");

        Assert.Equal(["A3"], FactList.RegisterOf([.. three, .. joins]).DeviceIds);
        Assert.Empty(FactList.RegisterOf([.. three, .. joins]).Device("A1")!.Contradictions);
        Assert.Equal(["A2", "A3"], FactList.RegisterOf([.. three, .. joins, parted]).DeviceIds);
    }

    [Fact]
    public void Registrations_that_disagree_become_a_contradiction()
    {
        var other = Make.Of(new DeviceRegistered("preamplifier", "Maker", "Model", "1", Make.Details()), "2021-01-01", "device:A1");

        Assert.Contains("kind microphone and preamplifier", Assert.Single(FactList.RegisterOf([Make.Registered("A1", "1"), other]).Device("A1")!.Contradictions), StringComparison.Ordinal);
        Assert.Empty(FactList.RegisterOf([Make.Registered("A1", "1"), Make.Registered("A1", "1", details: ("owner", "x"))]).Device("A1")!.Contradictions);
    }

    [Fact]
    public void A_corrected_serial_leaves_the_id()
    {
        var corrected = Make.Of(new DeviceDescribed(Make.Details(("serial", "107"), ("owner", "Hall")), ["variant"]), "2024-01-01", "device:A1");

        var device = FactList.RegisterOf([Make.Registered("A1", "101", details: ("variant", "b")), corrected]).Device("A1")!;

        Assert.Equal(("A1", "107", "Hall"), (device.Id, device.Serial, device.Text(DeviceField.Owner)));
        Assert.Null(device.Text(DeviceField.Variant));
    }

    [Fact]
    public void People_are_known_by_the_name_they_chose_last()
    {
        var register = FactList.RegisterOf([Make.Of(new PersonNamed("Ada"), "2024-01-01", "person:P1"), Make.Of(new PersonNamed("Ada L."), "2024-02-01", "person:P1")]);

        Assert.Equal("Ada L.", register.Person("P1")!.Name);
        Assert.Equal(PersonState.IdOf(" ada"), PersonState.IdOf("Ada"));
    }

    [Fact]
    public void Identity_ignores_case_and_outer_blanks_only()
    {
        Assert.Equal(DeviceIdentity.IdOf("microphone", "M", "X", "a1"), DeviceIdentity.IdOf("microphone", " m", "x ", "A1 "));
        Assert.NotEqual(DeviceIdentity.IdOf("microphone", "M", "X", "007"), DeviceIdentity.IdOf("microphone", "M", "X", "7"));
        Assert.NotEqual(DeviceIdentity.IdOf("microphone", "M", "X", "1"), DeviceIdentity.IdOf("preamplifier", "M", "X", "1"));
        Assert.Equal(DeviceIdentity.LookAlike("007"), DeviceIdentity.LookAlike("O0 7"));
        Assert.Equal(DeviceIdentity.LookAlike("A-1I"), DeviceIdentity.LookAlike("a 11"));
        Assert.NotEqual(DeviceIdentity.LookAlike("A12"), DeviceIdentity.LookAlike("A13"));
    }

    [Fact]
    public void Only_the_newest_register_takes_further_facts()
    {
        var list = new FactList();
        list.Add(Make.Registered("A1", "1"));
        var empty = Register.Empty(list);
        _ = empty.With([list.Read(1)]);

        Assert.Throws<InvalidOperationException>(() => empty.With([list.Read(1)]));
    }

    [Fact]
    public void Fields_of_every_kind_have_one_key_each()
    {
        Assert.Equal(DeviceField.All.Count, DeviceField.All.Select(f => f.Key).Distinct().Count());
        Assert.All(DeviceKind.All, k => Assert.All(k.Own, f => Assert.Contains(f, DeviceField.All)));
        Assert.All(DeviceField.All, f => Assert.NotEmpty(f.Allowed));
    }
}
