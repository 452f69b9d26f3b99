/*
 * The page breaker on slugs made by hand: where pages end, that heads come
 * again, and that columns end level.
 */
#include "write/handbook/pages.h"

#include "base/arena.h"
#include "suite.h"

enum { MOST = 400 };

static struct arena *arena;
static struct pages pages;
static struct slug slugs[MOST];
static uint32_t count;
static struct block chapter;

static void
set_up(void)
{
	arena = arena_new();
	pages_init(&pages, arena, format_find(NULL, false));
	memset(slugs, 0, sizeof(slugs));
	count = 0;
	chapter = (struct block){.kind = BLOCK_CHAPTER};
}

static void
tear_down(void)
{
	pages_release(&pages);
	arena_free(arena);
}

static void
add(unsigned number, float cost)
{
	while (number-- > 0)
		slugs[count++] = (struct slug){.height = 12, .cost = cost};
}

/* A paragraph as the galley makes it. */
static void
add_paragraph(unsigned number)
{
	unsigned i;

	for (i = 0; i < number; i++)
		add(1,
			i + 1 == number			  ? 0 :
				number == 2		  ? BREAK_NEVER :
				i == 0 || i + 2 == number ? BREAK_WIDOW :
							    0);
}

static void
break_it(unsigned columns)
{
	struct flow flow = {NULL, columns, slugs, count};

	pages_add(&pages, &chapter, &flow);
}

static const struct page *
page_at(unsigned i)
{
	ck_assert_uint_lt(i, pages.all->len);
	return &g_array_index(pages.all, struct page, i);
}

/* The slug below the last one of a stack. */
static uint32_t
end_of(const struct stack *stack)
{
	return (uint32_t)(stack->slugs - slugs) + stack->count;
}

START_TEST(test_full_pages)
{
	add(100, 0);
	break_it(1);
	ck_assert_uint_eq(pages.all->len, 3);
	ck_assert_uint_eq(page_at(0)->stacks[0].count, 40);
	ck_assert_uint_eq(page_at(2)->stacks[0].count, 20);
	ck_assert_str_eq(page_at(2)->label, "3");
}
END_TEST

START_TEST(test_no_widow_or_orphan)
{
	unsigned i;
	uint32_t end;

	for (i = 0; i < 60; i++)
		add_paragraph(2 + (i * 7 + (unsigned)_i) % 5);
	break_it(1);
	for (i = 0; i + 1 < pages.all->len; i++) {
		end = end_of(&page_at(i)->stacks[0]);
		ck_assert_float_eq(slugs[end - 1].cost, 0);
	}
}
END_TEST

START_TEST(test_heading_goes_with_text)
{
	add(39, 0);
	add(1, BREAK_NEVER);
	add_paragraph(6);
	break_it(1);
	ck_assert_uint_eq(page_at(0)->stacks[0].count, 39);
	ck_assert_uint_eq(page_at(1)->stacks[0].count, 7);
}
END_TEST

START_TEST(test_space_vanishes_at_the_top)
{
	add(40, 0);
	add(1, BREAK_NEVER);
	slugs[40].kind = SLUG_SPACE;
	add(3, 0);
	break_it(1);
	ck_assert_uint_eq(pages.all->len, 2);
	ck_assert_ptr_eq(page_at(1)->stacks[0].slugs, &slugs[41]);
	ck_assert_uint_eq(page_at(1)->stacks[0].count, 3);
}
END_TEST

START_TEST(test_head_comes_again)
{
	static const struct slug head_slug = {.height = 24,
		.cost = BREAK_NEVER};
	static const struct head head = {&head_slug, 1, 24};
	uint32_t i;

	slugs[count++] = head_slug;
	add(80, 0);
	for (i = 1; i < count; i++)
		slugs[i].head = &head;
	break_it(1);
	ck_assert_ptr_null(page_at(0)->stacks[0].head);
	ck_assert_uint_eq(page_at(0)->stacks[0].count, 39);
	ck_assert_ptr_eq(page_at(1)->stacks[0].head, &head);
	ck_assert_uint_eq(page_at(1)->stacks[0].count, 38);
	ck_assert_uint_eq(page_at(2)->stacks[0].count, 4);
}
END_TEST

START_TEST(test_columns_end_level)
{
	add(80 + 30, 0);
	break_it(2);
	ck_assert_uint_eq(pages.all->len, 2);
	ck_assert_uint_eq(page_at(0)->count, 2);
	ck_assert_uint_eq(page_at(0)->stacks[1].count, 40);
	ck_assert_uint_eq(page_at(1)->count, 2);
	ck_assert_uint_eq(page_at(1)->stacks[0].count, 15);
	ck_assert_uint_eq(page_at(1)->stacks[1].count, 15);
}
END_TEST

START_TEST(test_too_high_a_slug)
{
	add(2, 0);
	slugs[count++] = (struct slug){.height = 2000};
	add(2, 0);
	break_it(1);
	ck_assert_uint_eq(pages.overfull, 1);
	ck_assert_uint_eq(end_of(&page_at(pages.all->len - 1)->stacks[0]),
		count);
}
END_TEST

START_TEST(test_nothing_but_keeps)
{
	unsigned i;
	uint32_t sum = 0;

	add(130, BREAK_NEVER);
	break_it(1);
	for (i = 0; i < pages.all->len; i++)
		sum += page_at(i)->stacks[0].count;
	ck_assert_uint_eq(sum, 130);
	ck_assert_uint_eq(pages.all->len, 4);
}
END_TEST

START_TEST(test_numbering)
{
	struct block front = {.kind = BLOCK_CHAPTER,
		.numbering = NUMBERS_ROMAN};
	struct flow flow = {NULL, 1, slugs, 120};

	add(120, 0);
	pages_add(&pages, &front, &flow);
	pages_add(&pages, &chapter, &flow);
	ck_assert_str_eq(page_at(0)->label, "i");
	ck_assert_str_eq(page_at(2)->label, "iii");
	/* Page 1 is a right-hand page: an empty one goes before it. */
	ck_assert_ptr_null(page_at(3)->chapter);
	ck_assert_str_eq(page_at(3)->label, "iv");
	ck_assert_str_eq(page_at(4)->label, "1");
	ck_assert(page_at(4)->opens);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("handbook pages");
	TCase *tests = tcase_create("pages");

	tcase_add_checked_fixture(tests, set_up, tear_down);
	tcase_add_test(tests, test_full_pages);
	tcase_add_loop_test(tests, test_no_widow_or_orphan, 0, 20);
	tcase_add_test(tests, test_heading_goes_with_text);
	tcase_add_test(tests, test_space_vanishes_at_the_top);
	tcase_add_test(tests, test_head_comes_again);
	tcase_add_test(tests, test_columns_end_level);
	tcase_add_test(tests, test_too_high_a_slug);
	tcase_add_test(tests, test_nothing_but_keeps);
	tcase_add_test(tests, test_numbering);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
