using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.Fold;

public sealed class CorrectionTests
{
    private static readonly Fact Moved = Make.Of(new DeviceMoved("store"), "2024-01-01", "device:A1");

    [Fact]
    public void An_annulled_fact_does_not_count_and_an_annulled_annulment_does_nothing()
    {
        var annulment = Make.Annulling(Moved);
        var again = Make.Annulling(annulment, "it was right");

        Assert.Null(FactList.RegisterOf([Moved, annulment]).Device("A1")!.Place);
        Assert.Equal("store", FactList.RegisterOf([Moved, annulment, again]).Device("A1")!.Place);
        Assert.Equal("store", FactList.RegisterOf([again, annulment, Moved]).Device("A1")!.Place);
    }

    [Fact]
    public void A_replacement_stands_in_for_its_target_and_gives_way_when_annulled()
    {
        var replacement = Make.Replacing(Moved, new DeviceMoved("van"));

        Assert.Equal("van", FactList.RegisterOf([replacement, Moved]).Device("A1")!.Place);
        Assert.Single(FactList.RegisterOf([replacement, Moved]).Device("A1")!.Places);
        Assert.Equal("store", FactList.RegisterOf([replacement, Moved, Make.Annulling(replacement)]).Device("A1")!.Place);
        Assert.Equal("van", FactList.RegisterOf([replacement]).Device("A1")!.Place); // its target is waited for
    }

    [Fact]
    public void Of_two_replacements_the_higher_id_counts_and_people_are_told()
    {
        var (a, b) = (Make.Replacing(Moved, new DeviceMoved("van")), Make.Replacing(Moved, new DeviceMoved("hall")));
        var higher = a.Id > b.Id ? a : b;

        var register = FactList.RegisterOf([a, Moved, b]);

        Assert.Equal(((DeviceMoved)higher.Body).Place, Assert.Single(register.Device("A1")!.Places).What.Place);
        Assert.Equal("replaced-twice", Assert.Single(register.Findings(new DateOnly(2026, 5, 1))).Rule);
    }

    [Fact]
    public void A_replacement_of_another_kind_or_subject_does_not_count_and_people_are_told()
    {
        var unfit = Make.Replacing(Moved, new DeviceMoved("van"), "device:A2");

        var register = FactList.RegisterOf([Moved, unfit]);

        Assert.Equal("store", register.Device("A1")!.Place);
        Assert.Null(register.Device("A2")!.Place);
        Assert.Equal("replacement-unfit", Assert.Single(register.Findings(new DateOnly(2026, 5, 1))).Rule);
    }

    [Fact]
    public void A_circle_is_void_as_a_whole_and_people_are_told()
    {
        var (a, b) = (FactId.Create(1, new byte[10]), FactId.Create(2, new byte[10]));
        var stamp = new FactStamp(Make.On("2024-01-01"), "P1", "desk", 0);
        var one = FactText.Write(a, stamp, new FactAnnulled(b.ToString(), "x"), ["device:A1"]);
        var two = FactText.Write(b, stamp, new FactAnnulled(a.ToString(), "x"), ["device:A1"]);

        var register = FactList.RegisterOf([Moved, one, two]);

        Assert.Equal("store", register.Device("A1")!.Place);
        Assert.All(register.Findings(new DateOnly(2026, 5, 1)), f => Assert.Equal("correction-circle", f.Rule));
        Assert.Equal(2, register.Findings(new DateOnly(2026, 5, 1)).Count);
    }

    [Fact]
    public void Annulled_certificates_stay_visible()
    {
        var certificate = Make.Certificate("A1", "2024-01-01", -26);

        var device = FactList.RegisterOf([certificate, Make.Annulling(certificate)]).Device("A1")!;

        Assert.True(Assert.Single(device.Certificates).IsAnnulled);
    }
}
