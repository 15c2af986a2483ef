using System.Text;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Register.Settling;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>What a phone may state: of its campaign, of what is planned there, and the short list of what is not.</summary>
public sealed class PhoneSayingTests
{
    private const string Stored = "stored";
    private const string Refused = "refused";
    private const string C = "campaign:" + HeathPhone.Campaign;

    // What is stated of a device that stands there, and whether a phone may where nobody planned it, and where somebody did.
    private static readonly (string Name, FactBody Body, string Stranger, string Planned)[] Sayings =
    [
        ("noted", new DeviceNoted("wet"), Stored, Stored),
        ("damage", Serviced(ServiceKind.Damage), Stored, Stored),
        ("malfunction", Serviced(ServiceKind.Malfunction), Stored, Stored),
        ("lost", Status(DeviceStatus.Lost), Stored, Stored),
        ("out of service", Status(DeviceStatus.OutOfService), Stored, Stored),
        ("retired", Status(DeviceStatus.Retired), Refused, Stored),
        ("away", Status(DeviceStatus.Away), Refused, Stored),
        ("in service", Status(DeviceStatus.InService), Refused, Stored),
        ("damage that begins anew", new DeviceServiced(ServiceKind.Damage, "x", true), Refused, Stored),
        ("malfunction that begins anew", new DeviceServiced(ServiceKind.Malfunction, "x", true), Refused, Stored),
        ("repair", Serviced(ServiceKind.Repair), Refused, Stored),
        ("maintenance", Serviced(ServiceKind.Maintenance), Refused, Stored),
        ("modification", Serviced(ServiceKind.Modification), Refused, Stored),
        ("verification", Serviced(ServiceKind.Verification), Refused, Stored),
        ("planned work", Serviced(ServiceKind.Planned), Refused, Stored),
        ("inspected", new DeviceInspected(true, null, null, null, null), Refused, Stored),
        ("moved", new DeviceMoved("my cellar"), Refused, Stored),
        ("label", new LabelBound(HeathPhone.Label, null), Refused, Stored),
        ("registered", new DeviceRegistered("microphone", "Other", "Other", "9", []), Refused, Refused),
        ("described", new DeviceDescribed(new(StringComparer.Ordinal) { ["owner"] = FieldValue.Of("me") }, []), Refused, Refused),
        ("joined", new DevicesJoined("PLANNED", "X", "same"), Refused, Refused),
        ("parted", new DevicesParted("PLANNED", "X", "other"), Refused, Refused),
    ];

    [Fact]
    public async Task A_phone_may_replace_its_placement_by_one_with_another_microphone_which_is_a_finding()
    {
        await using var phone = await HeathPhone.Open();
        var placed = phone.Placed("PLANNED");
        var other = phone.Say(
            new ChainPlaced("S1", ["SPARE"], [], null, null, null, null, null, [], null), [C, Subject.Device("SPARE")], placed.Id, null);

        Assert.Equal([Stored, Stored], await phone.Send(placed, other));
        var finding = Assert.Single(
            DeploymentFindings.Of(phone.Server.Live.Now, HeathPhone.Campaign), f => f.Rule == "replaced-microphone");
        Assert.Equal([other.Id.ToString(), placed.Id.ToString()], finding.Facts);
    }

    [Fact]
    public async Task Of_a_device_that_nobody_planned_a_phone_states_a_short_list_in_one_batch_or_in_two()
    {
        var strangers = Enumerable.Range(0, 2 * Sayings.Length).Select(i => $"X{i:00}").ToArray();
        await using var phone = await HeathPhone.Open(strangers);
        var wrong = new List<string>();
        for (var i = 0; i < Sayings.Length; i++)
        {
            var (name, body, expected, _) = Sayings[i];
            var (near, far) = (strangers[2 * i], strangers[(2 * i) + 1]);
            var together = await phone.Send(phone.Placed(near), phone.Say(body, Subject.Device(near)));
            string[] apart = [.. await phone.Send(phone.Placed(far)), .. await phone.Send(phone.Say(body, Subject.Device(far)))];
            if (!together.SequenceEqual([Stored, expected])) wrong.Add($"{name} in one batch: {string.Join(", ", together)}");
            if (!apart.SequenceEqual([Stored, expected])) wrong.Add($"{name} in two: {string.Join(", ", apart)}");
        }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Theory]
    [InlineData("PLANNED")]
    [InlineData("SPARE")]
    public async Task Of_what_is_planned_a_phone_states_what_its_duty_allows(string device)
    {
        await using var phone = await HeathPhone.Open();
        var answers = await phone.Send([.. Sayings.Select(s => phone.Say(s.Body, Subject.Device(device)))]);
        Assert.Equal(Sayings.Select(s => s.Name + " " + s.Planned), Sayings.Zip(answers, (s, a) => s.Name + " " + a));
    }

    [Fact]
    public async Task A_stranger_is_there_once_it_was_placed_checked_or_taken_in_by_this_campaign()
    {
        await using var phone = await HeathPhone.Open("A", "B", "D", "E", "F", "G");
        var said = new Answers(phone);
        Fact Noted(params string[] devices) => phone.Say(new DeviceNoted("seen"), [.. devices.Select(Subject.Device)]);
        Fact TakenIn(string device) => phone.Say(new ChainTakenIn("S1", [device], [], null), C, Subject.Device(device));
        Fact Checked(string device) => phone.Say(new ChainCheckedBriefly("S1", "CAL", 0.1), C, Subject.Device(device));

        await said.Expect("never there", [Refused], Noted("A"));
        await said.Expect("placed elsewhere in this batch", [Refused, Refused], phone.Placed("A", "ELSEWHERE"), Noted("A"));
        await phone.Desk(phone.Placed("A", "ELSEWHERE").Body, "campaign:ELSEWHERE", Subject.Device("A"));
        await said.Expect("placed elsewhere before", [Refused], Noted("A"));
        var foreign = phone.Say(phone.Placed("A").Body, [C, Subject.Device("A")], null, PersonState.IdOf("Crew east"));
        await said.Expect("placed by another crew in this batch", [Refused, Refused], foreign, Noted("A"));
        var near = phone.Placed("A");
        var asDesk = FactText.WriteDerived(new(near.Occurred, near.Author, "desk", near.Counter), near.Body, near.Subjects);
        await said.Expect("placed in the server's own name in this batch", [Refused, Refused], asDesk, Noted("A"));
        await said.Expect("with the campaign's name beside it", [Refused], phone.Say(new DeviceNoted("seen"), C, Subject.Device("A")));
        await said.Expect("placed in no campaign", [Refused, Refused], phone.Say(phone.Placed("A").Body, Subject.Device("A")), Noted("A"));
        var both = phone.Say(phone.Placed("A").Body, C, "campaign:ELSEWHERE", Subject.Device("A"));
        await said.Expect("placed in two campaigns", [Refused, Refused], both, Noted("A"));
        await said.Expect("beside a planned one", [Refused], Noted("PLANNED", "A"));

        await said.Expect("taken in, one batch", [Stored, Stored], TakenIn("B"), Noted("B"));
        await said.Expect("checked, one batch", [Stored, Stored], Checked("D"), Noted("D"));
        await said.Expect("taken in", [Stored], TakenIn("E"));
        await said.Expect("after it was taken in", [Stored], Noted("E"));
        await said.Expect("checked", [Stored], Checked("F"));
        await said.Expect("after it was checked, beside a planned one", [Stored], Noted("F", "PLANNED"));
        // By whoever it was placed before.
        await phone.Desk(phone.Placed("G").Body, C, Subject.Device("G"));
        await said.Expect("after the desk placed it", [Stored], Noted("G"));
        said.AreRight();
    }

    [Fact]
    public async Task A_stranger_is_there_by_a_stay_of_its_own_that_this_phone_may_state()
    {
        await using var phone = await HeathPhone.Open("A", "H");
        var said = new Answers(phone);
        Fact Noted() => phone.Say(new DeviceNoted("seen"), Subject.Device("A"));
        Fact Instead(Fact of) => phone.Say(phone.Placed("A").Body, [C, Subject.Device("A")], of.Id, null);
        var repaired = await phone.Desk(Serviced(ServiceKind.Repair), Subject.Device("A"));
        var seen = await phone.Desk(new DeviceNoted("seen at the desk"), Subject.Device("A"));

        await said.Expect("another was placed", [Stored, Refused], phone.Placed("H"), Noted());
        await said.Expect("placed in the place of a repair", [Refused, Refused], Instead(repaired), Noted());
        await said.Expect("placed in the place of a note of it", [Refused, Refused], Instead(seen), Noted());
        await said.Expect("placed by what nobody here can read", [Stored, Refused], Newer(phone.Placed("A")), Noted());
        await said.Expect("after that", [Refused], Noted());
        said.AreRight();
    }

    [Fact]
    public async Task What_a_newer_version_wrote_is_held_to_what_its_kind_is_mostly_of()
    {
        await using var phone = await HeathPhone.Open("A");
        var said = new Answers(phone);
        Fact Noted(string device) => Newer(phone.Say(new DeviceNoted("seen"), Subject.Device(device)));
        var (weather, aside) = (new WeatherNoted(null, null, 20, null, null), new ItemPutAside(new string('c', 64), 1, "x", "y"));
        await said.Expect("placed", [Stored], phone.Placed("A"));

        // A note that can be read is of any that stands there.
        await said.Expect("noted", [Refused], Noted("A"));
        await said.Expect("noted of a planned one", [Stored], Noted("PLANNED"));
        await said.Expect("weather", [Stored], Newer(phone.Say(weather, C)));
        await said.Expect("weather of no campaign", [Refused], Newer(phone.Say(weather, Subject.Device("PLANNED"))));
        await said.Expect("put aside", [Refused], Newer(phone.Say(aside, C, Subject.Device("PLANNED"))));
        said.AreRight();
    }

    // Entered twice and joined: what holds of either entry holds of the device.
    [Fact]
    public async Task An_entry_is_planned_or_was_there_where_the_one_that_it_was_joined_with_is_or_was()
    {
        await using var phone = await HeathPhone.Open("TWIN", "Y", "Z");
        var said = new Answers(phone);
        Task<Fact> Join(string keep, string other) =>
            phone.Desk(new DevicesJoined(keep, other, "entered twice"), Subject.Device(keep), Subject.Device(other));
        Fact Noted(string device) => phone.Say(new DeviceNoted("seen"), Subject.Device(device));
        Fact Moved(string device) => phone.Say(new DeviceMoved("the van"), Subject.Device(device));

        await said.Expect("moved before it was joined with a planned one", [Refused], Moved("TWIN"));
        await Join("PLANNED", "TWIN");
        await said.Expect("moved after", [Stored, Stored], Moved("TWIN"), Moved("PLANNED"));
        await Join("Y", "Z");
        await said.Expect("noted before", [Refused, Refused], Noted("Y"), Noted("Z"));
        await said.Expect("noted where the other entry is placed", [Stored, Stored], phone.Placed("Z"), Noted("Y"));
        await said.Expect("noted after", [Stored, Stored], Noted("Y"), Noted("Z"));
        await said.Expect("moved, which asks for a plan", [Refused, Refused], Moved("Y"), Moved("Z"));
        said.AreRight();
    }

    [Fact]
    public async Task Of_its_campaign_a_phone_states_what_was_done_and_of_no_other()
    {
        await using var phone = await HeathPhone.Open("A");
        var said = new Answers(phone);
        FactBody[] bodies =
        [
            new PhotoTaken(new string('a', 64), "image/jpeg", null, "S1", null, null), new WeatherNoted(null, null, 20, null, null),
            new ToneNoted("S1", CheckMoment.Before, ["A"], "CAL", null, null, null),
            new ChainTakenIn("S1", ["A"], [], null), new ChainPlacedBriefly("S1", ["A"], null), phone.Placed("A").Body,
        ];
        foreach (var body in bodies)
        {
            await said.Expect($"{body} here", [Stored], phone.Say(body, C, Subject.Device("A")));
            await said.Expect($"{body} elsewhere", [Refused], phone.Say(body, "campaign:ELSEWHERE", Subject.Device("A")));
            await said.Expect($"{body} of an event elsewhere", [Refused], phone.Say(body, C, "event:ELSEWHERE.RUN-1"));
            await said.Expect($"{body} of no campaign", [Refused], phone.Say(body, Subject.Device("PLANNED")));
        }
        // A label at a station is the campaign's; with a device beside it, it would be the device's.
        var (bound, label) = (new LabelBound(HeathPhone.Label, "S1"), Subject.Label(HeathPhone.Label));
        await said.Expect("label at a station", [Stored], phone.Say(bound, label, C));
        await said.Expect("label at a station and a device", [Refused], phone.Say(bound, label, C, Subject.Device("PLANNED")));
        var sha = new string('b', 64);
        await said.Expect("of nothing of the campaign", [Refused], phone.Say(new ItemPutAside(sha, 1, "x", "y"), Subject.Aside(sha)));
        // What is for the desk stays that beside the campaign and what is planned there, and a note is of a device.
        await said.Expect(
            "put aside, of a planned one", [Refused], phone.Say(new ItemPutAside(sha, 1, "x", "y"), C, Subject.Device("PLANNED")));
        var note = new DeviceNoted("seen");
        await said.Expect("noted of the campaign", [Refused], phone.Say(note, C));
        await said.Expect("noted of a label", [Refused], phone.Say(note, label));
        await said.Expect("noted of itself", [Refused], phone.Say(note, Subject.Person(PersonState.IdOf(HeathPhone.Crew))));
        // A name that only begins like the campaign's is another's; an event without a dot is of none.
        await said.Expect("of an event here", [Stored], phone.Say(bodies[0], C, "event:HEATH.RUN-1"));
        await said.Expect("of an event of no campaign", [Stored], phone.Say(bodies[0], C, "event:RUN-1"));
        await said.Expect("of an event of a longer name", [Refused], phone.Say(bodies[0], C, "event:HEATHER.RUN-1"));
        await said.Expect("of a longer name", [Refused], phone.Say(bodies[0], C, "campaign:HEATHER"));
        said.AreRight();
    }

    [Fact]
    public async Task Taking_back_and_replacing_ask_for_what_the_first_statement_asked_for()
    {
        await using var phone = await HeathPhone.Open("A", "B");
        var said = new Answers(phone);
        string[] a = [Subject.Device("A")];
        await said.Expect("placed", [Stored], phone.Placed("A"));
        var retired = await phone.Desk(Status(DeviceStatus.Retired), a);
        var repaired = await phone.Desk(Serviced(ServiceKind.Repair), a);
        var noted = phone.Say(new DeviceNoted("seen"), a);
        await said.Expect("noted", [Stored], noted);

        await said.Expect("annuls a retirement", [Refused], phone.Annulling(retired));
        await said.Expect("annuls a repair", [Refused], phone.Annulling(repaired));
        await said.Expect("replaces a retirement", [Refused], phone.Say(Status(DeviceStatus.OutOfService), a, retired.Id, null));
        await said.Expect("replaces a repair", [Refused], phone.Say(Serviced(ServiceKind.Damage), a, repaired.Id, null));
        await said.Expect("replaces what is not here", [Refused], phone.Say(new DeviceNoted("x"), a, FactId.Create(1, new byte[10]), null));
        await said.Expect("replaces by what it may not say", [Refused], phone.Say(Status(DeviceStatus.Retired), a, noted.Id, null));
        Assert.Equal(DeviceStatus.Retired, phone.Server.Live.Now.Device("A")!.Status);

        var better = phone.Say(new DeviceNoted("seen in the rain"), a, noted.Id, null);
        await said.Expect("replaces its own note", [Stored], better);
        await said.Expect("annuls with another device beside it", [Refused], phone.Annulling(better, Subject.Device("B")));
        var undone = phone.Annulling(better);
        await said.Expect("annuls its own note", [Stored], undone);
        await said.Expect("annuls that", [Stored], phone.Annulling(undone));
        said.AreRight();
    }

    [Fact]
    public async Task A_phone_that_names_itself_like_another_is_heard_and_flagged()
    {
        await using var phone = await HeathPhone.Open();
        await phone.Desk(new PersonNamed("Olive"), Subject.Person(PersonState.IdOf("Olive")));

        Assert.Equal([Stored], await phone.Send(phone.Say(new PersonNamed("Оlive"), Subject.Person(PersonState.IdOf(HeathPhone.Crew)))));

        var finding = Assert.Single(phone.Server.Live.Now.Findings(new(2026, 8, 3)), f => f.Rule == "names-alike");
        Assert.Contains("“Olive”", finding.Text, StringComparison.Ordinal);
        Assert.Equal([Refused], await phone.Send(phone.Say(new PersonNamed("King"), Subject.Person(PersonState.IdOf("Olive")))));
    }

    [Fact]
    public async Task A_name_is_taken_back_and_replaced_by_its_own_person_alone()
    {
        await using var phone = await HeathPhone.Open();
        var said = new Answers(phone);
        string[] own = [Subject.Person(PersonState.IdOf(HeathPhone.Crew))];
        var olive = await phone.Desk(new PersonNamed("Olive"), Subject.Person(PersonState.IdOf("Olive")));

        await said.Expect("takes another's name back", [Refused], phone.Annulling(olive));
        await said.Expect(
            "takes another's name back as of itself", [Refused], phone.Say(new FactAnnulled(olive.Id.ToString(), "undone"), own));
        await said.Expect("puts its own in its place", [Refused], phone.Say(new PersonNamed("Crew West"), own, olive.Id, null));
        var named = phone.Say(new PersonNamed("Crew West"), own);
        await said.Expect(
            "names another by what nobody here can read", [Refused],
            Newer(phone.Say(new PersonNamed("King"), Subject.Person(PersonState.IdOf("Olive")))));
        await said.Expect("names itself", [Stored], named);
        await said.Expect("takes that back", [Stored], phone.Annulling(named));

        said.AreRight();
        Assert.Equal("Olive", phone.Server.Live.Now.Person(PersonState.IdOf("Olive"))!.Name);
    }

    // The same as a later version of its kind would write it.
    private static Fact Newer(Fact fact)
    {
        var text = Encoding.UTF8.GetString(fact.Bytes.Span);
        return FactText.ReadCanonical(Encoding.UTF8.GetBytes(text[..text.LastIndexOf(':')] + ":9}"));
    }

    private static DeviceServiced Serviced(ServiceKind what) => new(what, "seen", false);

    private static DeviceStatusChanged Status(DeviceStatus status) => new(status, "because");

    // All answers are looked at, so that one that is wrong hides no other.
    private sealed class Answers(HeathPhone phone)
    {
        private readonly List<string> _wrong = [];

        public async Task Expect(string what, string[] expected, params Fact[] facts)
        {
            var answers = await phone.Send(facts);
            if (!answers.SequenceEqual(expected)) _wrong.Add($"{what}: {string.Join(", ", answers)}");
        }

        public void AreRight() => Assert.True(_wrong.Count == 0, string.Join("\n", _wrong));
    }
}
